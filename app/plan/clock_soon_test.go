package plan_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/app/job"
	"garlandry/app/plan"
)

// A page that only mentions the clock gets the one of before at once, then, asked again in a pause, the one that knows of
// the tick; without Lags it gets that at once.
func TestSoonGivesTheClockOfBeforeAndThenTheBetterOne(t *testing.T) {
	before := readJob(t, "reading-room")
	after := before
	after.State = before.State.Clone()
	after.State.Apply(job.Rec{Op: job.Op{ID: "tick", Device: "d", Number: 1, Kind: job.Set, Entity: "card/load", Field: "done", Value: []byte("true")}, Effective: 1})
	p, q := plan.Make(before), plan.Make(after)
	now := longBefore(t, before)
	k := plan.Clocks{Lags: true}
	first := k.Soon(before, &p, now, 0)
	require.NotEmpty(t, first.Sentence)
	_, there := first.Task("card/load")
	require.True(t, there)
	assert.False(t, k.Behind(), "there was none before")
	assert.Same(t, first, k.Soon(after, &q, now, 0), "the one of before")
	assert.True(t, k.Behind(), "and there is a better one")
	assert.False(t, k.Behind(), "said once")
	k.Lags = false
	better := k.Soon(after, &q, now, 0)
	assert.NotSame(t, first, better)
	_, there = better.Task("card/load")
	assert.False(t, there, "it knows of the tick")
	k.Lags = true
	assert.Same(t, better, k.Soon(after, &q, now, 0))
	assert.False(t, k.Behind(), "nothing better is to come")
}
