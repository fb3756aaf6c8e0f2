package job_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"garlandry/app/job"
)

func TestKeys(t *testing.T) {
	assert.Equal(t, "card/make/door", job.CardKey("make", "door"))
	assert.Equal(t, "card/unload", job.CardKey("unload", ""))
	assert.Equal(t, "pack/latex/11/coral", job.LatexKey(11, "coral"))
	assert.Equal(t, "pack/supply/tape", job.PackKey("supply/tape", ""))
	assert.Equal(t, "latex/11/coral", job.KeyPath("pack/latex/11/coral"))
	family, id := job.SplitCard("card/make/door")
	assert.Equal(t, []string{"make", "door"}, []string{family, id})
}

func TestIsProgress(t *testing.T) {
	for _, c := range []struct {
		entity             string
		card, pack, usable bool
	}{
		{"card/make/door", true, false, true},
		{"pack/latex/11/coral", false, true, true},
		{"card/", true, false, false},
		{"card/a b", true, false, false},
		{"pack/é", false, true, false},
		{"card/" + strings.Repeat("x", job.MaxEntityBytes), true, false, false},
		{"cardboard/x", false, false, false},
		{"piece/door", false, false, false},
		{"", false, false, false},
	} {
		assert.Equal(t, c.card, job.IsCard(c.entity), c.entity)
		assert.Equal(t, c.pack, job.IsPack(c.entity), c.entity)
		assert.Equal(t, c.card || c.pack, job.IsProgress(c.entity), c.entity)
		assert.Equal(t, c.usable, job.ValidKey(c.entity), c.entity)
	}
}
