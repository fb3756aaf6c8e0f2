package forecast_test

import (
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"garlandry/app/forecast"
	"garlandry/app/plan"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/app/job"
)

const clockDir = "../../testdata/goldens/clock"

// at reads a moment as local minutes.
func at(t testing.TB, moment job.Moment) int64 {
	t.Helper()
	c, known := moment.Time()
	require.True(t, known, "%s", moment)
	return c.Unix() / 60
}

// longBefore is a time before any work on a sample job.
func longBefore(t testing.TB, j job.Job) int64 { return at(t, j.Brief.In) - 30*24*60 }

func TestForecastGoldens(t *testing.T) {
	for _, name := range goldenJobs() {
		t.Run(name, func(t *testing.T) {
			j := readJob(t, name)
			c := forecast.New(j, plan.Make(j), longBefore(t, j), forecast.Usual, nil)
			got := writeClock(c)
			file := filepath.Join(clockDir, name+".txt")
			if *update {
				require.NoError(t, os.MkdirAll(clockDir, 0o755))
				require.NoError(t, os.WriteFile(file, []byte(got), 0o644))
			}
			want, err := os.ReadFile(file)
			require.NoError(t, err, "run go test ./app/forecast -update and read the diff")
			assert.Equal(t, string(want), got, "run go test ./app/forecast -update and read the diff")
		})
	}
}

// writeClock writes a forecast as text.
func writeClock(c *forecast.Forecast) string {
	var b strings.Builder
	say := func(format string, args ...any) { fmt.Fprintf(&b, format+"\n", args...) }
	say("%s: %s", c.Verdict, c.Sentence)
	for _, m := range c.Missing {
		say("MISSING %s", m)
	}
	say("odds %.2f, planned end %s, half %s, nine in ten %s", c.Odds, c.At(c.Finish), c.At(c.Half), c.At(c.Ninety))
	for _, entry := range c.Tasks {
		who := ""
		for _, s := range entry.Spells {
			who += fmt.Sprintf(" %s %s-%s", c.People[s.Person].Name, c.At(s.From)[11:], c.At(s.To)[11:])
		}
		say("%s %s to %s, by %s, critical %.1f:%s; waits for %s", entry.Key, c.At(entry.Start), c.At(entry.End),
			c.At(entry.StartBy), entry.Critical, who, strings.Join(entry.WaitsFor, ", "))
	}
	return b.String()
}

func BenchmarkForecastDemo(b *testing.B) {
	j := readJob(b, "reading-room")
	p, now := plan.Make(j), longBefore(b, j)
	for name, budget := range map[string]forecast.Budget{"quick": forecast.Quick, "fair": forecast.Fair,
		"usual": forecast.Usual, "patient": forecast.Patient} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				forecast.New(j, p, now, budget, nil)
			}
		})
	}
}

// The demo job with two more people and access half an hour earlier, as the sliders ask for it.
func BenchmarkForecastWhatIf(b *testing.B) {
	j := readJob(b, "reading-room")
	p, now := plan.Make(j), longBefore(b, j)
	for b.Loop() {
		new(forecast.Cache).Forecast(forecast.WhatIf(j, 2, 30), &p, now, 0, "?")
	}
}

// One visit of the clock with many pieces and people.
func BenchmarkForecastOfManyPieces(b *testing.B) {
	j := readJob(b, "reading-room")
	var more []job.Change
	for i := range 50 {
		id := "piece/more-" + strconv.Itoa(i)
		more = append(more, job.Put(id, "name", "Swag "+strconv.Itoa(i)), job.Put(id, "kind", "garland"),
			job.Put(id, "length_mm", 3000), job.Put(id, "recipe", "2x11@9.5"),
			job.Put(id, "built", []string{"home", "site"}[i%2]),
			job.Put(id, "priority", []string{"must", "should", "could"}[i%3]))
	}
	for i := range 7 {
		id := "member/more-" + strconv.Itoa(i)
		more = append(more, job.Put(id, "name", "Helper "+strconv.Itoa(i)), job.Put(id, "skill", "beginner"),
			job.Put(id, "home", i%2 == 0))
	}
	j = job.Try(j, more)
	p, now := plan.Make(j), longBefore(b, j)
	for name, atOnce := range map[string]bool{"first": false, "last": true} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				c := forecast.Cache{AtOnce: atOnce}
				require.True(b, c.Forecast(j, &p, now, 0, "").Planned())
			}
		})
	}
	b.Run("help", func(b *testing.B) {
		for b.Loop() {
			c := forecast.Cache{AtOnce: true}
			c.Advice(c.Forecast(j, &p, now, 0, ""), j, &p, now)
		}
	})
}
