package plan_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/plan/task"
)

func TestPackLinesShowWhatChanged(t *testing.T) {
	key := job.LatexKey(11, "coral")
	before := packLines(plan.Make(garland(3048)))[key]
	packed := job.Put(key, "have", before.Need)
	assert.Zero(t, packLines(plan.Make(garland(3048, packed)))[key].More())
	longer := packLines(plan.Make(garland(4572, packed)))[key]
	assert.Equal(t, longer.Need-before.Need, longer.More(), "so many more")
	assert.Positive(t, longer.More())
	shorter := packLines(plan.Make(garland(1524, packed)))[key]
	assert.Negative(t, shorter.More(), "so many to take out")
}

func TestPackedLinesStayWhenTheirNeedIsGone(t *testing.T) {
	rows := []struct{ name, key, want, bag string }{
		{"a size the plan lost", job.LatexKey(24, "coral"), "Coral 24-inch", "bag/balloons"},
		{"a colour that left the palette", job.LatexKey(11, "old"), "Old rose 11-inch", "bag/balloons"},
		{"an unknown colour", job.LatexKey(11, "never"), "never 11-inch", "bag/balloons"},
		{"the undecided colour", job.LatexKey(11, "not.chosen"), "colour not chosen 11-inch", "bag/balloons"},
		{"a piece that was removed", "pack/made/ring", "Photo hoop, ready made", "bag/made"},
		{"a tool that no rule needs now", "pack/tool/steamer", "Steamer for cloths", "bag/frames"},
		{"an own line that was removed", "pack/added/tags", "Name tags", "bag/other"},
		{"a key of a later version", "pack/robot/arm", "robot/arm", "bag/other"},
	}
	done := []job.Change{
		job.Put("colour/old", "name", "Old rose"), job.Put("colour/old", "removed", true),
		job.Put("piece/ring", "name", "Photo hoop"), job.Put("piece/ring", "kind", "hoop"),
		job.Put("piece/ring", "removed", true),
		job.Put("added/tags", "text", "Name tags"), job.Put("added/tags", "removed", true),
	}
	for _, row := range rows {
		done = append(done, job.Put(row.key, "have", 7))
	}
	p := plan.Make(garland(3048, done...))
	bagOf := map[string]string{}
	for _, b := range p.Pack {
		for _, l := range b.Lines {
			bagOf[l.Key] = b.Key
		}
	}
	lines := packLines(p)
	for _, row := range rows {
		t.Run(row.name, func(t *testing.T) {
			line, there := lines[row.key]
			require.True(t, there)
			assert.Equal(t, []int{0, 7, -7}, []int{line.Need, line.Have, line.More()})
			assert.Equal(t, row.want, line.Name)
			assert.Equal(t, row.bag, bagOf[row.key])
		})
	}
}

func TestCardsShowWhatIsMade(t *testing.T) {
	rows := []struct {
		name         string
		done         []job.Change
		made, beyond int
		isDone       bool
		left         float64 // share of the minutes
	}{
		{"nothing yet", nil, 0, 0, false, 1},
		{"half", []job.Change{job.Count("card/make/door", 10)}, 10, 0, false, 0.5},
		{"all", []job.Change{job.Count("card/make/door", 12), job.Count("card/make/door", 8)}, 20, 0, true, 0},
		{"more than needed now", []job.Change{job.Count("card/make/door", 26)}, 26, 6, true, 0},
		{"ticked without counting", []job.Change{job.Put("card/make/door", "done", true)}, 0, 0, true, 0},
		{"ticked when 14 were wanted, then it grew",
			[]job.Change{job.Put("card/make/door", "done", true), job.Put("card/make/door", "have", 14)}, 14, 0, false, 0.3},
		{
			"and the rest was made",
			[]job.Change{job.Put("card/make/door", "done", true), job.Put("card/make/door", "have", 14),
				job.Count("card/make/door", 6)},
			20, 0, true, 0,
		},
		{
			"ticked with 4 made of 10, then it grew",
			[]job.Change{job.Count("card/make/door", 4), job.Put("card/make/door", "done", true),
				job.Put("card/make/door", "have", 6)},
			10, 0, false, 0.5,
		},
		{"ticked, then opened again",
			[]job.Change{job.Put("card/make/door", "have", 20), job.Put("card/make/door", "done", false)}, 0, 0, false, 1},
		{"ticked before it grew", []job.Change{job.Count("card/make/door", 10), job.Put("card/make/door", "done", true)}, 10,
			0, false, 0.5},
	}
	for _, row := range rows {
		t.Run(row.name, func(t *testing.T) {
			c := cards(plan.Make(garland(3048, row.done...)))["card/make/door"]
			require.Equal(t, 20, c.Count)
			assert.Equal(t, row.made, c.Made)
			assert.Equal(t, row.beyond, c.Beyond)
			assert.Equal(t, row.isDone, c.Done)
			assert.InDelta(t, row.left*c.Minutes, c.Left(), 1e-9)
		})
	}
}

func TestWorkedOnCardsStay(t *testing.T) {
	p := plan.Make(garland(3048, job.Put("piece/ring", "name", "Photo hoop"), job.Put("piece/ring", "kind", "hoop"),
		job.Put("piece/ring", "removed", true), job.Count("card/make/ring", 9), job.Put("card/frame/ring", "done", true),
		job.Put("card/dress/ring", "taken", "Bea"), job.Count("card/fix/ring", 2), job.Count("card/fix/ring", -2)))
	all := cards(p)
	ring := all["card/make/ring"]
	assert.True(t, ring.Gone)
	assert.Equal(t, []int{9, 9}, []int{ring.Made, ring.Beyond})
	assert.Contains(t, ring.Title, "Photo hoop")
	assert.Equal(t, task.Home, ring.Place)
	assert.True(t, all["card/frame/ring"].Gone)
	assert.NotContains(t, all, "card/dress/ring", "a taken card is not worked on")
	assert.NotContains(t, all, "card/fix/ring", "a count that was undone does not count")
	assert.Equal(t, plan.Make(garland(3048)).Window.Work, p.Window.Work, "removed cards are no work")
}

func TestCardsWaitForWhatComesBefore(t *testing.T) {
	waits := func(done ...job.Change) []string {
		return cards(plan.Make(garland(3048, done...)))["card/join/door"].Waits
	}
	assert.Equal(t, []string{"Make the clusters for door"}, waits())
	assert.Empty(t, waits(job.Count("card/make/door", 20)))
	all := cards(plan.Make(garland(3048)))
	assert.Equal(t, []string{"Load the car"}, all["card/look"].Waits, "nobody walks the room before the car is there")
	assert.Equal(t, []string{"Put up door"}, all["card/down/door"].Waits, "only what hangs comes down")
}

func TestWhatTheBriefSaysEndsInAFullStop(t *testing.T) {
	notes := func(text string) string {
		all := ""
		for _, n := range plan.Make(garland(3048, job.Put("brief", "children", text),
			job.Put("brief", "allergy", text))).Notes {
			all += n.Text + "\n"
		}
		return all
	}
	for text, want := range map[string]string{"Story hour from two": "Story hour from two. ", "Many!": "Many! ",
		"None known. ": "None known. "} {
		assert.Contains(t, notes(text), "Children: "+want+"Children under eight")
		assert.Contains(t, notes(text), "Latex: "+want+"The décor")
	}
}

func TestALeadRewritesACard(t *testing.T) {
	p := plan.Make(garland(3048, job.Put("card/fix/door", "minutes", 90), job.Put("card/fix/door", "hands", 3),
		job.Put("card/fix/door", "note", "Mind the lamp."), job.Put("card/fix/door", "taken", "Bea")))
	c := cards(p)["card/fix/door"]
	assert.Equal(t, 90.0, c.Minutes)
	assert.Equal(t, 3, c.HandsMin)
	assert.Equal(t, "Mind the lamp.", c.Note)
	assert.Equal(t, "Bea", c.TakenBy)
	plain := plan.Make(garland(3048))
	assert.InDelta(t, plain.Window.Work-cards(plain)["card/fix/door"].Minutes+90, p.Window.Work, 1e-9)
}

func TestWindow(t *testing.T) {
	window := func(more ...job.Change) plan.Window { return plan.Make(garland(3048, more...)).Window }
	at := func(doors string) []job.Change {
		return []job.Change{job.Put("brief", "in", "2027-05-08T08:00"), job.Put("brief", "doors", doors)}
	}
	w := window()
	assert.False(t, w.Known)
	assert.Equal(t, "unknown", w.Verdict)
	alone := window(at("2027-05-08T18:00")...)
	assert.Equal(t, "fits", alone.Verdict)
	assert.Equal(t, alone.Sentence, alone.Reason+" It fits.", "the verdict is shown once, above the reason")
	assert.Equal(t, 600.0, alone.Minutes)
	assert.Equal(t, alone.Work, alone.Needs, "one person")
	assert.Equal(t, "short", window(at("2027-05-08T08:20")...).Verdict)
	assert.Equal(t, "unknown", window(at("2027-05-08T07:00")...).Verdict, "doors before in")

	crew := append(at("2027-05-08T10:00"), job.Put("member/ines", "name", "Ines"), job.Put("member/bea", "name", "Bea"),
		job.Put("member/bea", "from", "2027-05-08T09:00"))
	assert.InDelta(t, 1.5, window(crew...).Hands, 1e-9, "one for two hours, one for one of them")
	never := append(at("2027-05-08T10:00"), job.Put("member/bea", "name", "Bea"),
		job.Put("member/bea", "from", "2027-05-08T12:00"))
	assert.Equal(t, "short", window(never...).Verdict, "nobody is there")
}

func TestProgressLeavesTheDesignAlone(t *testing.T) {
	j := readJob(t, "reading-room")
	design := plan.Design(j)
	before := asJSON(t, design)
	plan.Progress(j, design)
	assert.Equal(t, before, asJSON(t, design))
	var none job.Job
	assert.NotPanics(t, func() { plan.Make(none) }, "a job without a state")
}
