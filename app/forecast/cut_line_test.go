package forecast_test

import (
	"testing"

	"garlandry/app/plan"
	"garlandry/app/plan/task"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/app/job"
)

// A cut line continues until the odds are certain, never cuts a must, and gives the odds that a new forecast without
// the cut pieces gives.
func TestCutLineKeepsMusts(t *testing.T) {
	t.Parallel()
	short := readJob(t, "reading-room")
	for name, j := range map[string]job.Job{"as it is": short,
		"two hours less": later(t, short, "Dora", longBefore(t, short), job.Put("brief", "in", "2027-05-08T09:00"))} {
		t.Run(name, func(t *testing.T) {
			p := plan.Make(j)
			c := clockOf(t, j, longBefore(t, j), nil)
			cuts := c.Cuts(&p)
			require.GreaterOrEqual(t, len(cuts), 3)
			should, odds, left := false, 0.0, map[string]string{}
			for _, piece := range j.Pieces {
				left[piece.ID] = piece.Priority
			}
			then, loose := j, false
			for i, cut := range cuts {
				assert.False(t, should && cut.Priority == "could", "coulds are cut before shoulds: %s", cut.Title)
				should = should || cut.Priority == "should"
				assert.GreaterOrEqual(t, cut.Odds, odds, "leaving out more never makes it later: %s", cut.Title)
				odds = cut.Odds
				assert.True(t, odds < 0.995 || i == len(cuts)-1 || i < 2, "it ends when certain, after three steps or more")
				for _, key := range cut.Tasks {
					card := cardsByKey(p)[key]
					assert.NotEqual(t, "must", card.Priority, key)
					assert.Equal(t, cut.Piece, card.Piece, "whole pieces are cut: %s", key)
				}
				delete(left, cut.Piece)
				if loose = loose || cut.Piece == ""; loose {
					continue
				}
				then = later(t, then, "Dora", longBefore(t, j), job.Put("piece/"+cut.Piece, "removed", true))
				assert.GreaterOrEqual(t, clockOf(t, then, longBefore(t, j), nil).Odds, cut.Odds-0.05,
					"planned without it: %s", cut.Title)
				assert.InDelta(t, clockOf(t, then, longBefore(t, j), nil).Odds, cut.Odds, 0.15, "planned without it: %s", cut.Title)
			}
			for id, priority := range left {
				assert.True(t, priority == "must" || odds >= 0.995, id)
			}
		})
	}
}

// A sign that must hang keeps the frame of a piece that could be left out.
func TestCutLineKeepsFramesOfMusts(t *testing.T) {
	t.Parallel()
	j := readJob(t, "reading-room")
	j = later(t, j, "Dora", longBefore(t, j), job.Put("piece/door", "priority", "could"),
		job.Put("piece/ring", "frame", ""))
	p := plan.Make(j)
	cuts := clockOf(t, j, longBefore(t, j), nil).Cuts(&p)
	require.NotEmpty(t, cuts)
	for _, cut := range cuts {
		assert.NotContains(t, cut.Tasks, "card/frame/stand", "the cloth and the sign hang on it")
	}
}

func cardsByKey(p plan.Plan) map[string]task.Card {
	cards := map[string]task.Card{}
	for _, c := range p.Cards {
		cards[c.Key] = c
	}
	return cards
}
