package main

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// Two extras may stand in one flag, as in the form: neither is lost, nor its
// cautions.
func TestExtrasInOneFlag(t *testing.T) {
	h := kitchenShelf(t)
	apart := daub(h, "batch", "light-white-clay", "--total", "100", "--extra", "honey=5%", "--extra", "almond oil=3%",
		"--json")
	together := daub(h, "batch", "light-white-clay", "--total", "100", "--extra", "honey=5%, almond oil=3%", "--json")
	require.Zero(t, together.code, together.err)
	require.Equal(t, apart.out, together.out)
	require.Contains(t, together.out, "bee products")
	require.Contains(t, together.out, "nuts")
}

// Help names only flags that its command has.
func TestHelpNamesFlagsThatAreThere(t *testing.T) {
	h := kitchenShelf(t)
	require.NotContains(t, daub(h, "recipe", "scale", "--help").out, "--jar")
}

// A batch can be checked with a pencil: it shows its inputs, and its column adds
// up.
func TestABatchCanBeCheckedWithAPencil(t *testing.T) {
	h := kitchenShelf(t)
	got := daub(h, "batch", "light-white-clay", "--portions", "4", "--each", "50", "--extra", "honey=5%",
		"--allowance", "5%", "--save", "Mask").out
	for _, text := range []string{got, daub(h, "recipe", "show", "mask").out} {
		require.Regexp(t, `altogether +210\.0`, text)
		require.Regexp(t, `Ratio [0-9.]+: [0-9.]+ g water and 10\.50 g that counts as liquid, to [0-9.]+ g powder\.`,
			text)
	}
	require.NotContains(t, got, "--allowance")
	got = daub(h, "batch", "light-white-clay", "--portions", "4", "--each", "50").out
	require.Contains(t, got, "Nothing is on top for what sticks to the bowl; --allowance 5% adds it.")
}

// A change equals the difference of the two numbers shown beside it.
func TestAChangeIsTheDifferenceOfWhatIsShown(t *testing.T) {
	for _, c := range [][3]string{
		{"827.9", "413.9", "-414.0"},
		{"631.1", "552.1", "-79.0"},
		{"99.50", "100.4", "+0.9"},
		{"2.00", "3.05", "+1.05"},
	} {
		require.Equal(t, c[2], changed(c[0], c[1]))
	}
}
