package show

import (
	"puffproof/limits/fault"
	"puffproof/limits/finding"
)

// OpenPairs counts the pairs that hold only by a test that is not done.
func OpenPairs(all []fault.Result) (n int) {
	for i := range all {
		if all[i].Status == finding.OpenItem && all[i].OnTest() {
			n++
		}
	}
	return n
}
