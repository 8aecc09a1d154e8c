package commission

import "puffproof/limits/finding"

// takes is how long a step takes at least [s], by what is done in it; 0: not known. A leak-down takes as long as its sheet (holds).
func takes(id string) float64 {
	switch id {
	case finding.ItemWaterTest: // at the top
		return 600
	case finding.ItemStaysEmpty, finding.ItemBarrelEmpty: // watched
		return 120
	}
	return 0
}
