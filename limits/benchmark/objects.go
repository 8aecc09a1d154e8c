package benchmark

// MisuseObject is something else than the projectile that a child may put into
// a barrel or over a launch tube. Plain data.
type MisuseObject struct {
	Name     string
	Diameter float64 // [m]
	Length   float64 // [m]; a ball: its diameter
	Mass     float64 // [kg]
	Document string  // of the size; empty: own choice
	Evidence Evidence
}

// MisuseObjects lists the objects that are shot in the model besides the
// builder's own. Sizes of IEC cells and of sports balls are those of their
// standards; all masses but those of the sports balls are from memory.
func MisuseObjects() []MisuseObject {
	const cells = "IEC 60086-2 (size)"
	return []MisuseObject{
		{"AA cell", 14.5e-3, 50.5e-3, 23e-3, cells, FromMemory},
		{"AAA cell", 10.5e-3, 44.5e-3, 11.5e-3, cells, FromMemory},
		{"glass marble", 16e-3, 16e-3, 5.4e-3, "", FromMemory}, // the usual size
		{"pencil", 7e-3, 175e-3, 5e-3, "", FromMemory},         // the usual size
		{"pebble", 20e-3, 20e-3, 11e-3, "", FromMemory},        // a round stone of density 2600 kg/m3
		{"table-tennis ball", 40e-3, 40e-3, 2.7e-3, "ITTF, laws of table tennis", FromMemory},
		{"golf ball", 42.67e-3, 42.67e-3, 45.93e-3, "R&A and USGA, rules of golf", FromMemory}, // the least size and the greatest mass allowed
	}
}

// The masses of a snug plug that fits the bore or the tube exactly [kg], and how
// many times its mass open-cell foam takes up in water. Own rules.
const (
	LightestPlug = 1e-3
	HeaviestPlug = 60e-3
	SoakedMass   = 10
)
