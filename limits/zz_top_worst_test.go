package limits

import (
	"puffproof/limits/internal/sample"
	"runtime"
	"testing"

	"github.com/stretchr/testify/assert"
)

// The whole check is the same, figure by figure, on one core and on three.
func TestCheckIsDeterministic(t *testing.T) {
	before := runtime.GOMAXPROCS(1)
	defer runtime.GOMAXPROCS(before)
	one := check(t, sample.Rocket())
	runtime.GOMAXPROCS(3)
	three := check(t, sample.Rocket())
	assert.Equal(t, one, three)
}
