package plan_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/calc/latex"
)

// TestSizedToIsTheUsualOfThatBalloon checks that pieces of every kind and size, read from JSON without "to_in", are
// counted at the usual diameter of their own size, without a note; what is said stays.
func TestSizedToIsTheUsualOfThatBalloon(t *testing.T) {
	for _, size := range job.Sizes {
		file := fmt.Sprintf(`{"garlandry":1,"colours":[{"id":"any","name":"Any","sizes":[5,9,10,11,12,16,18,24,36]}],
			"pieces":[{"name":"Bouquets","kind":"bouquets","count":2,"each":3,"size_in":%[1]d,
			"colours":[{"colour":"any","weight":1}]},
			{"name":"Tables","kind":"tables","count":2,"each":3,"size_in":%[1]d,
				"colours":[{"colour":"any","weight":1}]},
			{"name":"Digits","kind":"numbers","digits":"7","size_in":%[1]d,"colours":[{"colour":"any","weight":1}]},
			{"name":"Typed","kind":"free","counts":[{"size_in":%[1]d,"colour":"any","count":4}]}]}`, size)
		changes, err := job.DecodeFile([]byte(file))
		require.NoError(t, err)
		p := plan.Make(job.Preview(changes))
		require.Len(t, p.Pieces, 4)
		for _, piece := range p.Pieces {
			for _, by := range piece.By {
				assert.Equal(t, latex.UsualIn(size), by.ToIn, "%s of %d in", piece.Piece.Name, size)
			}
		}
		assert.NotContains(t, asJSON(t, p.Notes), "cannot be sized to", size)
	}
	said := plan.Make(made(append(piece("t", "tables", map[string]any{"count": 1, "each": 2, "size_in": 24,
		"to_in": 20.5, "colours": shares("coral", 1.0)}), job.Put("colour/coral", "sizes", []int{24}))...))
	assert.Equal(t, 20.5, said.Pieces[0].By[0].ToIn)
}
