package forecast_test

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"
	"time"

	"garlandry/app/forecast"
	"garlandry/app/plan"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/app/job"
	"garlandry/testdata/long"
)

// checkFixes checks that every fix gives the odds it offers, which are better than before. If both are near 0, it ends
// half an hour sooner. Or it lets somebody do a card that nobody could do.
func checkFixes(t *testing.T, j job.Job) (fixes []forecast.Fix) {
	t.Helper()
	p, now := plan.Make(j), longBefore(t, j)
	before := clockOf(t, j, now, nil)
	fixes = before.Fixes(j, &p, now)
	for _, fix := range fixes {
		again := before.FindFix(j, &p, fix.Key)
		require.NotNil(t, again, fix.Key)
		assert.Equal(t, fix.Changes(), again.Changes(), "it makes the offered changes")
		for _, c := range again.Changes() {
			require.NoError(t, job.CheckChange(c))
		}
		then := job.Try(j, again.Changes())
		for _, previous := range []*forecast.Forecast{nil, before} { // on the command line and on the page
			after := clockOf(t, then, now, previous)
			sooner := before.Odds < 0.05 && after.Ninety <= before.Ninety-30
			assert.True(t, after.Odds > before.Odds || sooner || len(after.Blocked) < len(before.Blocked),
				"%s: %s, was %s", fix.Key, after.Sentence, before.Sentence)
			assert.GreaterOrEqual(t, after.Odds, fix.Forecast.Odds-0.03, "%s: the odds it offered", fix.Key)
		}
		assert.Equal(t, fix.Reaches, fix.Forecast.Odds >= forecast.Target, fix.Key)
		for _, option := range fix.Mitigations {
			assert.NotEmpty(t, option.Cost, option.Key)
			assert.True(t, option.Minutes > 0 || option.Money > 0 || option.Look > 0 || strings.HasPrefix(option.Key, "sooner/"),
				"it costs time, money or look: %s", option.Key)
		}
		for _, half := range fixes {
			assert.False(t, half.Reaches && half.Key != fix.Key && strings.HasPrefix("+"+fix.Key+"+", "+"+half.Key+"+"),
				"%s is enough, so %s is not offered", half.Key, fix.Key)
		}
	}
	return fixes
}

func TestAFixGivesTheOddsItOffers(t *testing.T) {
	t.Parallel()
	for _, name := range []string{"reading-room", "allotment-supper", "orchard-wedding"} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			j := readJob(t, name)
			fixes := checkFixes(t, j)
			require.NotEmpty(t, fixes)
			assert.True(t, fixes[0].Reaches, "one of them reaches nine in ten")
			hands := false
			for _, fix := range fixes {
				hands = hands || strings.HasPrefix(fix.Key, "hands/")
			}
			assert.True(t, hands, "a fix adds people")
			p := plan.Make(j)
			c := clockOf(t, j, longBefore(t, j), nil)
			assert.Nil(t, c.FindFix(j, &p, "hands/0+wishes"))
			assert.Nil(t, c.FindFix(j, &p, ""))
		})
	}
	t.Run("a tight job", func(t *testing.T) {
		t.Parallel()
		assert.NotEmpty(t, checkFixes(t, anyTightJob(t, 8)))
	})
}

func TestFixesOfManyJobsGiveTheirOdds(t *testing.T) {
	long.Test(t, "fixes of 20 random jobs give the odds they offer")
	t.Parallel()
	offered, jobs := 0, 20
	for seed := range jobs {
		t.Run(fmt.Sprint("job ", seed), func(t *testing.T) { offered += len(checkFixes(t, anyTightJob(t, uint64(seed)))) })
	}
	assert.Greater(t, offered, jobs, "most tight jobs get a fix")
}

// anyTightJob is the reading room with random pieces, places, skills and less time.
func anyTightJob(t *testing.T, seed uint64) job.Job {
	t.Helper()
	j := readJob(t, "reading-room")
	r := rand.New(rand.NewPCG(seed, 4))
	var changes []job.Change
	for _, piece := range j.Pieces {
		entity := "piece/" + piece.ID
		switch r.IntN(4) {
		case 0:
			changes = append(changes, job.Put(entity, "removed", true))
		case 1:
			changes = append(changes, job.Put(entity, "built", "site"))
		case 2:
			changes = append(changes, job.Put(entity, "built", "home"), job.Put(entity, "priority", "could"))
		}
	}
	for _, member := range j.Crew {
		changes = append(changes, job.Put("member/"+member.ID, "skill", []string{"beginner", "practised"}[r.IntN(2)]))
	}
	in := at(t, j.Brief.In) + int64(15*r.IntN(9))
	changes = append(changes, job.Put("brief", "in", moment(in)))
	return later(t, j, "Dora", longBefore(t, j), changes...)
}

// moment formats a local minute as a field does.
func moment(minute int64) string { return time.Unix(minute*60, 0).UTC().Format("2006-01-02T15:04") }

// Ten pieces, two people, two and three quarter hours: no single change brings the odds above 0.
func TestFixesAreFoundAtOddsOfZero(t *testing.T) {
	t.Parallel()
	j := readJob(t, "reading-room")
	j = later(t, j, "Dora", longBefore(t, j), job.Put("brief", "in", "2027-05-08T08:45"),
		job.Put("member/bea", "removed", true), job.Put("piece/window", "built", "site"),
		job.Put("piece/desk", "built", "site"))
	before := clockOf(t, j, longBefore(t, j), nil)
	require.Less(t, before.Odds, 0.01)
	fixes := checkFixes(t, j)
	require.NotEmpty(t, fixes)
	assert.True(t, fixes[0].Reaches, "%s: %.2f", fixes[0].Key, fixes[0].Forecast.Odds)
	assert.Greater(t, len(fixes[0].Mitigations), 1, fixes[0].Key)
}

// TestTheBestFixComesFirst checks in tight jobs that fixes that reach nine in ten come first, and that the odds never
// rise along the others.
func TestTheBestFixComesFirst(t *testing.T) {
	t.Parallel()
	pairs := 0
	for seed := range uint64(6) {
		j := anyTightJob(t, seed)
		j = job.Try(j, []job.Change{job.Put("brief", "in", moment(at(t, j.Brief.In)+60))})
		p, now := plan.Make(j), longBefore(t, j)
		fixes := clockOf(t, j, now, nil).Fixes(j, &p, now)
		for i := 1; i < len(fixes); i++ {
			better, worse := fixes[i-1], fixes[i]
			require.Empty(t, worse.Forecast.Blocked, "what lets somebody do a card comes first, whatever its odds")
			assert.False(t, worse.Reaches && !better.Reaches, "job %d: %s reaches", seed, worse.Key)
			if !worse.Reaches && !better.Reaches {
				assert.LessOrEqual(t, worse.Forecast.Odds, better.Forecast.Odds, "job %d: %s", seed, worse.Key)
				pairs++
			}
		}
	}
	assert.Greater(t, pairs, 4, "fixes that do not reach")
}
