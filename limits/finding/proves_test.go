package finding

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// What a design declares of its tip or its guard counts as long as it says so: words of a test that failed, that nobody made or
// that somebody felt are none.
func TestWhatADeclarationProves(t *testing.T) {
	for _, text := range []string{"press test record, two initials", "press test record of 2026-04-02, two initials",
		"press test of 2026-04-02, AB CD", "declared", "declared: the adult in charge says so",
		"pressed by 60 N three times, prints of 25 mm, photo in the folder"} {
		assert.Equal(t, text, Proves(ItemTip, " "+text+" "), text)
	}
	for _, text := range []string{"press test failed", "press test failed 2026-11-01, AB CD", "not done yet", "a thumb test, it feels soft",
		"no", "?", "", "TODO", "press test, but it broke", "I think it is soft", "should pass", "no press test", "pressed with a finger"} {
		assert.Empty(t, Proves(ItemTip, text), text)
	}
	for _, text := range []string{"four slots in the muzzle ring", "four slots of 8 mm in the muzzle ring",
		"cage of wire, 60 mm before the muzzle", "side holes near the muzzle",
		"declared: slots or a bar that no lips can seal and no finger reaches past",
		"declared: a guard that keeps lips, faces and fingers off", "ring of holes, no mouth closes it",
		"rubber ring with four slots", "a cross bar, and the children are told to keep off"} {
		assert.Equal(t, text, Proves(ItemSealGuard, text), text)
	}
	for _, text := range []string{"guard was lost", "none yet", "smooth muzzle, nothing keeps lips off", "no", "to be made later", "no guard",
		"without a guard", "broken ring", "a soft rubber ring around the muzzle", "we tell the children", "foam ring", "a sign beside it",
		"the children know that they must not", "an adult watches the muzzle", "rubber lip on the tube"} {
		assert.Empty(t, Proves(ItemSealGuard, text), text)
	}
}
