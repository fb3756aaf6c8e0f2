package plan_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/plan/count"
	"garlandry/app/plan/figures"
	"garlandry/app/plan/packing"
	"garlandry/calc/stock"
)

type packRow struct {
	name string
	more []job.Change
	want map[string]int // need by key; 0: not on the list
}

func packRows() []packRow {
	frame := []job.Change{job.Put("kit/stand", "kind", "frame"), job.Put("kit/stand", "name", "Stand"),
		job.Put("kit/stand", "width_mm", 2000), job.Put("piece/door", "frame", "stand")}
	helium := piece("float", "bouquets",
		map[string]any{"count": 3, "each": 4, "gas": "helium", "to_in": 11, "colours": shares("coral", 1.0)})
	return []packRow{
		{
			"plain",
			nil,
			map[string]int{"pack/tool/hand-pump": 1, "pack/tool/pump": 1, "pack/tool/lead": 1,
				"pack/tool/clamps": 0, "pack/helium/weights": 0, "pack/supply/fishing-line": 0,
				"pack/paper/plan": 1, "pack/safety/first-aid": 1, "pack/supply/labels": 1},
		},
		{"no power", []job.Change{job.Put("brief", "power", "none")},
			map[string]int{"pack/tool/pump": 0, "pack/tool/lead": 0, "pack/tool/hand-pump": 1}},
		{
			"no power, three people",
			[]job.Change{job.Put("brief", "power", "none"), job.Put("member/a", "name", "Ines"),
				job.Put("member/b", "name", "Bea"), job.Put("member/c", "name", "Tomasz")},
			map[string]int{"pack/tool/hand-pump": 2, "pack/safety/glasses": 3},
		},
		{"socket far", []job.Change{job.Put("brief", "power", "far")}, map[string]int{"pack/tool/lead": 2}},
		{"own pump",
			[]job.Change{job.Put("kit/p", "kind", "pump"), job.Put("kit/p", "name", "Pump"), job.Put("kit/p", "count", 2)},
			map[string]int{"pack/tool/pump": 0, "pack/kit/p": 2}},
		{"on a frame", frame, map[string]int{"pack/kit/stand": 1, "pack/tool/clamps": 4, "pack/tool/foot-weights": 2,
			"pack/supply/cable-ties": 10, "pack/supply/hooks": 0}},
		{"on a frame outdoors", append(frame, job.Put("brief", "place", "outdoors")),
			map[string]int{"pack/tool/foot-weights": 8}},
		{"a frame that carries nothing",
			[]job.Change{job.Put("kit/stand", "kind", "frame"), job.Put("kit/stand", "name", "Stand")},
			map[string]int{"pack/kit/stand": 0}},
		{"hooks where the venue allows them", []job.Change{job.Put("brief", "fixing", "removable")},
			map[string]int{"pack/supply/hooks": 5}},
		{"helium", helium,
			map[string]int{"pack/helium/weights": 3, "pack/helium/ribbon": 20, "pack/helium/cylinder": 1,
				"pack/tool/table": 1}},
		{"helium, ribbon in metres", append(helium, job.Put("brief", "units", "metric")),
			map[string]int{"pack/helium/ribbon": 18}},
		{"a sign", []job.Change{job.Put("kit/s", "kind", "other"), job.Put("kit/s", "name", "Light sign")},
			map[string]int{"pack/supply/fishing-line": 1, "pack/tool/ladder": 1, "pack/supply/batteries": 1, "pack/kit/s": 1}},
		{"a design is no sign", []job.Change{job.Put("kit/s", "kind", "other"), job.Put("kit/s", "name", "Design folder")},
			map[string]int{"pack/supply/fishing-line": 0}},
		{"cloth", []job.Change{job.Put("kit/c", "kind", "other"), job.Put("kit/c", "name", "Linen cloth")},
			map[string]int{"pack/tool/steamer": 1}},
		{"high", []job.Change{job.Put("piece/door", "line", "arch"), job.Put("piece/door", "height_mm", 2500)},
			map[string]int{"pack/tool/ladder": 1}},
		{"grass", []job.Change{job.Put("brief", "floor", "grass")}, map[string]int{"pack/tool/floor-sheet": 2}},
		{"allergy", []job.Change{job.Put("brief", "allergy", "The porter.")}, map[string]int{"pack/paper/latex-notice": 1}},
		{"the car is not packed", []job.Change{job.Put("kit/car", "kind", "car"), job.Put("kit/car", "name", "Van")},
			map[string]int{"pack/kit/car": 0}},
		{"an own line", []job.Change{job.Put("added/x", "text", "Name tags"), job.Put("added/x", "count", 3)},
			map[string]int{"pack/added/x": 3}},
	}
}

func TestPackRules(t *testing.T) {
	for _, row := range packRows() {
		t.Run(row.name, func(t *testing.T) {
			lines := packLines(plan.Make(garland(3048, row.more...)))
			for key, need := range row.want {
				line, there := lines[key]
				assert.Equal(t, need > 0, there, key)
				assert.Equal(t, need, line.Need, key)
				if there {
					assert.NotEmpty(t, line.Reason, key)
				}
			}
		})
	}
}

// A pump that runs on a battery is of use where there is no socket. Another one is, only if something is made at home.
func TestPumpWithoutPower(t *testing.T) {
	none := job.Put("brief", "power", "none")
	for _, row := range []struct {
		name, pump, built, want string
	}{
		{"a socket", "Pump", "site", "from your kit"},
		{"on a battery", "Battery pump", "site", "charge it the day before"},
		{"made at home", "Pump", "home", "for filling at home"},
		{"made at the venue", "Pump", "site", "only if it runs on a battery"},
	} {
		t.Run(row.name, func(t *testing.T) {
			more := []job.Change{job.Put("kit/p", "kind", "pump"), job.Put("kit/p", "name", row.pump),
				job.Put("piece/door", "built", row.built)}
			if row.name != "a socket" {
				more = append(more, none)
			}
			assert.Contains(t, packLines(plan.Make(garland(3048, more...)))["pack/kit/p"].Reason, row.want)
		})
	}
}

// A joined section takes one bag, however much room its balloons take. Loose clusters go by volume.
func TestBagsForWhatIsMadeAtHome(t *testing.T) {
	car := []job.Change{job.Put("kit/car", "kind", "car"), job.Put("kit/car", "name", "Van"),
		job.Put("kit/car", "litres", 12000), job.Put("kit/car", "longest_mm", 2600)}
	p := plan.Make(garland(3048, car...))
	require.NotEmpty(t, p.Pieces[0].Sections)
	lines := packLines(p)
	assert.Equal(t, "sections", lines["pack/made/door"].Unit)
	assert.Equal(t, len(p.Pieces[0].Sections), lines["pack/supply/clear-bags"].Need)
	assert.Contains(t, lines["pack/supply/clear-bags"].Reason, "2 long enough for a section;")
	tables := piece("t", "tables", map[string]any{"count": 10, "each": 6, "size_in": 11, "to_in": 10, "built": "home",
		"colours": shares("coral", 1.0)})
	both := packLines(plan.Make(garland(3048, append(car, tables...)...)))
	loose := both["pack/made/t"].Need
	assert.Greater(t, loose, 1)
	assert.Equal(t, 2+loose, both["pack/supply/clear-bags"].Need)
	assert.Contains(t, both["pack/supply/clear-bags"].Reason, "and "+Count(loose)+" of 8 cu ft;")
}

func TestKitComesHome(t *testing.T) {
	var lines []packing.Line
	for _, row := range packRows() {
		for _, line := range packLines(plan.Make(garland(3048, row.more...))) {
			lines = append(lines, line)
		}
	}
	for _, row := range []struct {
		name, keys string
		home       bool
	}{
		{"the step ladder", "pack/tool/ladder", true},
		{"tools", "pack/tool/", true},
		{"safety gear", "pack/safety/", true},
		{"the owner's kit", "pack/kit/", true},
		{"helium cylinders", "pack/helium/cylinder", true},
		{"balloon weights", "pack/helium/weights", true},
		{"ribbon is used up", "pack/helium/ribbon", false},
		{"balloons are used up", "pack/latex/", false},
		{"supplies are used up", "pack/supply/", false},
		{"papers stay", "pack/paper/", false},
	} {
		t.Run(row.name, func(t *testing.T) {
			seen := false
			for _, line := range lines {
				if !strings.HasPrefix(line.Key, row.keys) {
					continue
				}
				seen = true
				want := 0
				if row.home {
					want = line.Need
				}
				assert.Equal(t, want, line.Out(), line.Key)
			}
			assert.True(t, seen, "nothing of this kind is packed")
		})
	}
}

func TestOwnPackLinesGoIntoTheirBag(t *testing.T) {
	p := plan.Make(garland(3048,
		job.Put("added/a", "text", "Vase"), job.Put("added/a", "bag", "tool BOX"),
		job.Put("added/b", "text", "Tags"), job.Put("added/b", "bag", "Ines's rucksack"),
		job.Put("added/c", "text", "Pins"), job.Put("added/c", "bag", "INES'S rucksack")))
	in := map[string]string{}
	for _, b := range p.Pack {
		for _, l := range b.Lines {
			in[l.Name] = b.Name
		}
	}
	assert.Equal(t, "Tool box", in["Vase"])
	assert.Equal(t, "Ines's rucksack", in["Tags"])
	assert.Equal(t, "Ines's rucksack", in["Pins"])
}

func TestSpares(t *testing.T) {
	line := func(more ...job.Change) count.BalloonLine {
		p := plan.Make(garland(3048, more...))
		require.NotEmpty(t, p.Balloons)
		return p.Balloons[0]
	}
	exact := func(pct, sure float64) int {
		n, err := stock.Spares(80, pct, sure)
		require.NoError(t, err)
		return n
	}
	beginner := []job.Change{job.Put("member/b", "name", "Bea")}
	// Common practice, no source: 2 to 3 % in practised hands, 5 % in beginners'.
	assert.Equal(t, exact(2.5, 99), line().Buy, "the owner alone is practised")
	assert.Equal(t, exact(5, 99), line(beginner...).Buy)
	assert.Equal(t, exact(5+3+1, 99),
		line(append(beginner, job.Put("brief", "place", "outdoors"), job.Put("brief", "floor", "grass"))...).Buy)
	assert.Equal(t, exact(2.5+3, 99), line(job.Put("colour/coral", "finish", "mirror")).Buy)
	assert.Equal(t, exact(12, 80),
		line(job.Put("brief", "spare_pct", 12), job.Put("brief", "sure_pct", 80), job.Put("brief", "place", "outdoors")).Buy,
		"the brief's own figure replaces the sum")
	assert.Equal(t, 80, line(job.Put("brief", "spare_pct", 0)).Buy)
	assert.Equal(t, exact(9, 99), line(job.Put("override/breakage/practised", "value", 9)).Buy)
}

func TestFigures(t *testing.T) {
	seen := map[string]bool{}
	for _, f := range figures.All() {
		assert.False(t, seen[f.Key], "twice: %s", f.Key)
		seen[f.Key] = true
		assert.NotEmpty(t, f.Label, f.Key)
		assert.NotEmpty(t, f.Unit, f.Key)
		assert.NotEmpty(t, f.Group, f.Key)
		assert.NotEmpty(t, f.Source.Mark, f.Key)
		assert.LessOrEqual(t, f.Min, f.Default, f.Key)
		assert.LessOrEqual(t, f.Default, f.Max, f.Key)
		assert.NoError(t, job.CheckChange(job.Put("override/"+f.Key, "value", f.Default)), f.Key)
	}
	of := func(p plan.Plan, key string) figures.Figure {
		for _, f := range p.Figures {
			if f.Key == key {
				return f
			}
		}
		return figures.Figure{}
	}
	f := of(plan.Make(garland(3048, job.Put("override/minutes/twist/practised", "value", 0.9),
		job.Put("override/minutes/twist/practised", "note", "Timed on Sunday."))), "minutes/twist/practised")
	assert.True(t, f.Overridden)
	assert.Equal(t, []float64{0.9, 0.3}, []float64{f.Value, f.Default})
	assert.Equal(t, figures.Source{Text: "Timed on Sunday.", Mark: figures.Measured}, f.Source)
	f = of(plan.Make(garland(3048, job.Put("override/minutes/twist/practised", "value", 100000))),
		"minutes/twist/practised")
	assert.Equal(t, f.Max, f.Value, "a value outside the range is moved to its bound")
}
