package advise

import (
	"fmt"
	"strings"
)

// cutSuffix gives the name of the volume whose key ends so, and whether it is one's.
func cutSuffix(key, suffix string) (name string, ok bool) {
	table, ok := strings.CutSuffix(key, suffix)
	if !ok {
		return "", false
	}
	return strings.CutPrefix(table, "volumes.")
}

// gaugeTable begins the keys of one gauge of several, counted from 0.
func gaugeTable(i int) string { return fmt.Sprintf("gauge[%d].", i+1) }
