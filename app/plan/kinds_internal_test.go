package plan

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/app/job"
	"garlandry/app/plan/count"
	"garlandry/app/plan/packing"
	"garlandry/app/plan/task"
)

// Inside the package because callers cannot choose the list of kinds.

func TestANewKindOfPieceIsOneEntryOfTheList(t *testing.T) {
	j := job.Job{
		Colours: []job.Colour{{ID: "coral", Name: "Coral", Sizes: []int{11}}},
		Pieces:  []job.Piece{{ID: "s", Name: "Spiral", Kind: "spiral", Built: "home", Priority: "must"}},
	}
	unknown := Design(j)
	require.Len(t, unknown.Pieces, 1)
	assert.Zero(t, unknown.Pieces[0].Balloons)
	assert.Contains(t, unknown.Notes[0].Text, "does not know")

	spiral := &count.Kind{
		Name: "spiral",
		Count: func(d *count.Draft, c *count.Counted) {
			c.Balloons = 30
			c.By = []count.PieceBalloons{{SizeIn: 11, ToIn: 10, Colour: d.Job.Colours[0], Count: 30}}
			c.Make = count.Batch{Count: 15, One: "turn", Many: "turns"}
			c.Fix = count.Batch{Count: 1, One: "spiral", Many: "spirals"}
		},
		PutUp: func(*count.Draft, *count.Counted) count.PutUp {
			return count.PutUp{Steps: []string{"Wind it up."}, Row: "set-out", Times: 1, Least: count.Pair, Most: count.Pair,
				Cautions: []string{"lifting"}}
		},
	}
	p := design(j, append(count.Kinds(), spiral))
	assert.Equal(t, 30, p.Pieces[0].Balloons)
	require.Len(t, p.Balloons, 1)
	assert.Greater(t, p.Balloons[0].Buy, 30, "spares go with them")
	cards := map[string]task.Card{}
	for _, c := range p.Cards {
		cards[c.Key] = c
	}
	assert.Equal(t, 15, cards["card/make/s"].Count)
	up := cards["card/fix/s"]
	assert.Equal(t, []string{"Wind it up."}, up.Steps)
	assert.Equal(t, 2, up.HandsMin)
	assert.Equal(t, "lifting", up.Cautions[0].Key)
	lines := map[string]packing.Line{}
	for _, bag := range p.Pack {
		for _, line := range bag.Lines {
			lines[line.Key] = line
		}
	}
	assert.Equal(t, p.Balloons[0].Spares, lines["pack/latex/11/coral"].Need, "the others travel blown up")
	assert.Positive(t, lines["pack/made/s"].Need)
}

func TestKindsAskForFieldsOfAPiece(t *testing.T) {
	noun, _ := job.FindNoun("piece/x")
	for _, k := range count.Kinds() {
		for _, list := range [][]string{k.Measures, k.Needed, k.Build, k.More} {
			for _, name := range list {
				_, known := noun.Field(name)
				assert.True(t, known, "%s asks %s", k.Name, name)
			}
		}
	}
}
