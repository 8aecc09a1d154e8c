package flight

import "math"

// Drag gives a drag coefficient [-] at a Reynolds number [-].
type Drag func(reynolds float64) float64

// Constant is a coefficient that does not change with the speed.
func Constant(cd float64) Drag { return func(float64) float64 { return cd } }

// Sphere is the drag coefficient of a smooth sphere, Morrison's correlation:
//
//	Cd = 24/Re + 2.6 (Re/5)/(1 + (Re/5)^1.52)
//	   + 0.411 (Re/2.63e5)^-7.94/(1 + (Re/2.63e5)^-8)
//	   + Re^0.8/461000
//
// Re is the Reynolds number [-], above 0 and up to 1e6.
// Source: F. A. Morrison, Data Correlation for Drag Coefficient for Sphere,
// Michigan Technological University (2010).
func Sphere(re float64) float64 {
	if re <= 0 {
		return math.Inf(1)
	}
	a, b := re/5, re/2.63e5
	// b^-7.94/(1 + b^-8) written so that a small b does not overflow.
	third := math.Pow(b, 0.06) / (math.Pow(b, 8) + 1)
	return 24/re + 2.6*a/(1+math.Pow(a, 1.52)) + 0.411*third + math.Pow(re, 0.8)/461000
}

// Shape is the outline of a projectile.
type Shape uint8

// The shapes with a published coefficient.
const (
	Ball Shape = iota
	Cylinder1
	Cylinder2
	Cylinder4
	Hemisphere
)

// String names the shape.
func (s Shape) String() string {
	return [...]string{"ball", "flat-faced cylinder as long as wide", "flat-faced cylinder twice as long as wide",
		"flat-faced cylinder four times as long as wide", "hemisphere, round side first"}[s]
}

// Shapes lists every shape.
func Shapes() []Shape { return []Shape{Ball, Cylinder1, Cylinder2, Cylinder4, Hemisphere} }

// ShapeDrag is the coefficient of a shape [-] on its frontal area, at Reynolds
// numbers of 1e4 to 2e5. A cylinder flies along its axis.
// Source: S. F. Hoerner, Fluid-Dynamic Drag (1965), chapter 3 (from memory: the
// figures are those of the usual handbook tables); a ball follows Sphere.
func ShapeDrag(s Shape) Drag {
	switch s {
	case Cylinder1:
		return Constant(0.91)
	case Cylinder2:
		return Constant(0.85)
	case Cylinder4:
		return Constant(0.87)
	case Hemisphere:
		return Constant(0.34)
	}
	return Sphere
}
