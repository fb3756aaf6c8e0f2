package plan_test

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/app/plan"
	"garlandry/app/plan/figures"
	"garlandry/app/plan/task"
)

var update = flag.Bool("update", false, "rewrite the goldens")

const goldenDir = "../../testdata/goldens/plan"

func TestGoldens(t *testing.T) {
	want := map[string]bool{}
	for _, name := range goldenJobs() {
		want[name+".txt"] = true
		t.Run(name, func(t *testing.T) {
			got := write(plan.Make(readJob(t, name)))
			file := filepath.Join(goldenDir, name+".txt")
			if *update {
				require.NoError(t, os.MkdirAll(goldenDir, 0o755))
				require.NoError(t, os.WriteFile(file, []byte(got), 0o644))
			}
			stored, err := os.ReadFile(file)
			require.NoError(t, err, "run go test ./app/plan -update and read what changed")
			assert.Equal(t, string(stored), got, "run go test ./app/plan -update and read what changed")
		})
	}
	files, err := os.ReadDir(goldenDir)
	require.NoError(t, err)
	for _, f := range files {
		assert.True(t, want[f.Name()], "%s belongs to no job", f.Name())
	}
}

// write writes a plan as text, with rounded figures so that every machine writes the same.
func write(p plan.Plan) string {
	var b strings.Builder
	say := func(format string, args ...any) { fmt.Fprintf(&b, format+"\n", args...) }
	for _, c := range p.Pieces {
		say("PIECE %s (%s): %.1f mm, %s, %d clusters, %d duplets, %d balloons, %d ties, %d accents of %d balloons; %s %s",
			c.Piece.Name, c.Piece.Kind, c.LengthMM, c.Recipe, c.Clusters, c.Duplets, c.Balloons, c.Ties, c.Accents,
			c.AccentBalloons, c.MakeKey, c.FixKey)
		for _, by := range c.By {
			say("  %d %s %d@%.1f", by.Count, by.Colour.Name, by.SizeIn, by.ToIn)
		}
		for _, s := range c.Substitutes {
			say("  substitute %s %s x %d, closes %.0f %%, accent %v", s.Colour.Name, s.Recipe, s.Clusters, s.ClosesPct, s.Accent)
		}
		for _, s := range c.Sections {
			say("  section %d: %d clusters, %.0f mm", s.Number, s.Clusters, s.LengthMM)
		}
		for _, on := range c.Layers {
			say("  layer %s: %s, %d balloons, %d ties, %d glue dots; %s %s", on.Name, on.Words(), on.Balloons, on.Ties,
				on.GlueDots, on.MakeKey, on.FixKey)
			for _, by := range on.By {
				say("    %d %s %d@%.1f", by.Count, by.Colour.Name, by.SizeIn, by.ToIn)
			}
		}
		writeLines(say, c.Working)
	}
	for _, l := range p.Balloons {
		say("BUY %s: %d + %d = %d in %d pieces", l.Key, l.Need, l.Spares, l.Buy, len(l.Pieces))
	}
	say("TIES %d", p.Ties)
	for _, bag := range p.Pack {
		say("BAG %s %s", bag.Key, bag.Name)
		for _, l := range bag.Lines {
			say("  %d/%d %s %s, kit %v: %s (%s) %s", l.Have, l.Need, l.Unit, l.Name, l.Kit, l.Reason, l.Source.Mark, l.Key)
		}
	}
	for _, c := range p.Cards {
		writeCard(say, c)
	}
	for _, n := range p.Notes {
		var options []string
		for _, o := range n.Options {
			options = append(options, "{"+o.Value+" "+o.Label+"}")
		}
		say("NOTE %s %s %s: %s %v picked %q", n.Kind, n.Key, n.Piece, n.Text, options, n.Picked)
	}
	w := p.Window
	say("WINDOW %v %.0f min, work %.1f, hands %.2f, needs %.1f, left %.1f, home %.1f, take-down %.1f: %s: %s", w.Known,
		w.Minutes, w.Work, w.Hands, w.Needs, w.Left, w.Home, w.TakeDown, w.Verdict, w.Sentence)
	for _, f := range p.Figures {
		say("FIGURE %s: %g (%g, %g to %g) %s: %s; %s, %s, own %v", f.Key, f.Value, f.Default, f.Min, f.Max, f.Unit, f.Label,
			f.Source.Text, f.Source.Mark, f.Overridden)
	}
	return b.String()
}

func writeCard(say func(string, ...any), c task.Card) {
	say("CARD %s %s: %s; %d %s, hands %d to %d, %.1f min (%.1f, %.1f), %s, after %s", c.Place, c.Key, c.Title, c.Count,
		c.Unit, c.HandsMin, c.HandsMax, c.Minutes, c.MinutesBy["beginner"], c.MinutesBy["practised"], c.Priority,
		strings.Join(task.Keys(c.After), " "))
	for _, step := range c.Steps {
		say("  * %s", step)
	}
	for _, caution := range c.Cautions {
		say("  ! %s", caution.Key)
	}
	writeLines(say, c.Working)
}

func writeLines(say func(string, ...any), lines []figures.Line) {
	for _, l := range lines {
		say("  - %s: %s: %s (%s)", l.What, l.How, l.Result, l.Source.Mark)
	}
}
