package forecast_test

import (
	"fmt"
	"math/rand/v2"
	"path/filepath"
	"strings"
	"testing"

	"garlandry/app/forecast"
	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/plan/figures"

	"github.com/stretchr/testify/require"
)

// briefly is a budget for a plan whose quality does not matter.
var briefly = forecast.Budget{Schedules: 2, Runs: 8}

// TestNoCardTakesNoTimeOrNobody plans every sample job and 300 random ones.
func TestNoCardTakesNoTimeOrNobody(t *testing.T) {
	t.Parallel()
	files, err := filepath.Glob("../../testdata/jobs/*.json")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	for _, file := range files {
		name := strings.TrimSuffix(filepath.Base(file), ".json")
		j := readJob(t, name)
		checkWorkers(t, name, j)
		checkWorkers(t, name+" with rates of 0", job.Try(j, zeroRates()))
	}
	planned := 0
	for seed := range uint64(300) {
		if checkWorkers(t, fmt.Sprintf("random job %d", seed), anyJob(seed)) {
			planned++
		}
	}
	require.Greater(t, planned, 100, "most random jobs need a plan")
}

// TestOwnMinutesOfNothingCountAsATenth checks what the time table makes of a 0.
func TestOwnMinutesOfNothingCountAsATenth(t *testing.T) {
	t.Parallel()
	p := plan.Make(job.Try(readJob(t, "reading-room"), zeroRates()))
	for _, f := range p.Figures {
		if strings.HasPrefix(f.Key, "minutes/") {
			require.InDelta(t, f.Default/10, f.Value, 0.005, f.Key)
			require.Positive(t, f.Value, f.Key)
		}
	}
}

// zeroRates are own minutes of 0, which an earlier version stored.
func zeroRates() (changes []job.Change) {
	for _, f := range figures.All() {
		if strings.HasPrefix(f.Key, "minutes/") {
			changes = append(changes, job.Put("override/"+f.Key, "value", 0))
		}
	}
	return changes
}

// checkWorkers checks that every card takes time and that somebody does it. It reports whether there is a plan.
func checkWorkers(t *testing.T, name string, j job.Job) bool {
	t.Helper()
	p := plan.Make(j)
	for i := range p.Cards {
		if c := &p.Cards[i]; !c.Gone {
			require.Positive(t, c.Minutes, "%s: %s", name, c.Key)
			require.Positive(t, c.MinutesBy["beginner"], "%s: %s", name, c.Key)
			require.Positive(t, c.MinutesBy["practised"], "%s: %s", name, c.Key)
		}
	}
	now := int64(0)
	if in, known := j.Brief.In.Time(); known {
		now = in.Unix()/60 - 120
	}
	c := forecast.New(j, p, now, briefly, nil)
	for i := range c.Tasks {
		entry := &c.Tasks[i]
		require.Greater(t, entry.End, entry.Start, "%s: %s", name, entry.Key)
		require.NotEmpty(t, entry.Spells, "%s: nobody does %s", name, entry.Key)
		for _, s := range entry.Spells {
			require.Greater(t, s.To, s.From, "%s: %s", name, entry.Key)
		}
	}
	return c.Planned()
}

// anyJob returns a random job on its day, with pieces of every kind, own figures and progress.
func anyJob(seed uint64) job.Job {
	r := rand.New(rand.NewPCG(seed, 11))
	pick := func(list ...any) any { return list[r.IntN(len(list))] }
	changes := []job.Change{job.Put("brief", "in", "2027-05-08T08:00"), job.Put("brief", "doors", "2027-05-08T12:00"),
		job.Put("brief", "down", pick("2027-05-08T18:00", nil))}
	for i := range 2 + r.IntN(4) {
		member := fmt.Sprintf("member/m%d", i)
		changes = append(changes, job.Put(member, "name", fmt.Sprintf("Person %d", i)),
			job.Put(member, "skill", pick("beginner", "practised")), job.Put(member, "home", i < 2))
	}
	for i, kind := range job.PieceKinds() {
		if r.IntN(2) == 0 {
			continue
		}
		id := fmt.Sprintf("p%d", i)
		changes = append(changes, piece(id, kind.Value, map[string]any{"length_mm": 200 + r.IntN(6000),
			"width_mm": 200 + r.IntN(4000), "height_mm": 200 + r.IntN(3000), "recipe": pick("2x11@9.5", "2x5@4.5"),
			"count": 1 + r.IntN(6), "each": 1 + r.IntN(5), "digits": "40", "gas": pick("air", "helium"),
			"built": pick("home", "site"), "ahead": r.IntN(3), "colours": shares("coral", 1.0),
			"priority": pick("must", "should", "could")})...)
		for _, card := range []string{"card/make/" + id, "card/fix/" + id} {
			switch r.IntN(6) {
			case 0:
				changes = append(changes, job.Count(card, int64(1+r.IntN(200))))
			case 1:
				changes = append(changes, job.Put(card, "minutes", pick(0, 0.01, 1, 30)))
			}
		}
	}
	changes = append(changes, job.Put("added/x", "text", "Water the plants"),
		job.Put("added/x", "list", pick("site", "home")), job.Put("added/x", "minutes", pick(0, 5)))
	if rates := zeroRates(); r.IntN(2) == 0 {
		changes = append(changes, rates[:r.IntN(len(rates))]...)
	}
	return made(changes...)
}

// TestTheLastOfManyTakesTime leaves one cluster of a card to which somebody gave 0 minutes.
func TestTheLastOfManyTakesTime(t *testing.T) {
	t.Parallel()
	wall := piece("wall", "wall", map[string]any{"width_mm": 9000, "height_mm": 3000, "built": "site",
		"colours": shares("coral", 1.0)})
	j := made(append(wall, job.Put("brief", "in", "2027-05-08T08:00"), job.Put("brief", "doors", "2027-05-08T12:00"),
		job.Put("member/a", "name", "Ines"), job.Put("member/b", "name", "Olek"))...)
	card := cardsByKey(plan.Make(j))["card/make/wall"]
	require.Greater(t, card.Count, 200)
	j = job.Try(j, []job.Change{job.Count(card.Key, int64(card.Count-1)), job.Put(card.Key, "minutes", 0)})
	require.True(t, checkWorkers(t, "one cluster left", j))
	c := forecast.New(j, plan.Make(j), at(t, j.Brief.In), briefly, nil)
	_, open := c.Task(card.Key)
	require.True(t, open)
}
