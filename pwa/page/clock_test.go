package page_test

import (
	"encoding/json"
	"fmt"
	"garlandry/app/forecast"
	"strings"
	"testing"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/plan/task"
	"garlandry/pwa/form"
	"garlandry/pwa/page"

	"github.com/PuerkitoBio/goquery"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestClockShowsTheVerdictFirstAndEachPictureAsATable(t *testing.T) {
	w := newWorld(t)
	w.load("reading", "reading-room.json")
	v := w.visitor(job.Owner, "Dora").visit("/jobs/reading/clock")
	assert.Regexp(t, `Safe bet|Likely done`, v.doc.Find("#clock-answer .verdict").Text())
	assert.Contains(t, v.doc.Find("#clock-answer").Text(), "11:30")
	pictures := v.doc.Find("svg.clockpicture")
	assert.Equal(t, pictures.Length(), v.doc.Find("table.clocktable").Length(), "each picture needs a table")
	assert.Positive(t, pictures.Length())
	day := v.doc.Find("section.clockday").First()
	assert.Contains(t, day.Find("h2").Text(), "Sat 8 May")
	assert.Equal(t, 1, day.Find("line.doors").Length())
	assert.Equal(t, 1, day.Find("rect.band").Length())
	for _, name := range []string{"Ines", "Tomasz", "Bea"} {
		assert.Contains(t, day.Find("svg .who").Text(), name)
	}
	words := day.Find("table").Text()
	assert.Contains(t, words, "start by")
	assert.Contains(t, words, "on the critical path")
	assert.NotContains(t, words, "after ", "the card says what it waits for")
	assert.Equal(t, 1, v.doc.Find(`#nav a[aria-current=page][href="/jobs/reading/clock"]`).Length())
	assert.Equal(t, 1, v.visit("/jobs/reading").doc.Find(`#clock-answer a[href^="/jobs/reading/clock"]`).Length(),
		"the first page must link to the clock")
}

func TestAFixChangesTheJobAndHistoryCanUndoIt(t *testing.T) {
	w := newWorld(t)
	w.load("reading", "reading-room.json")
	v := w.visitor(job.Owner, "Dora").visit("/jobs/reading/clock?help=1")
	fixes := v.doc.Find("#fixes > li")
	require.Positive(t, fixes.Length())
	fixes.Each(func(_ int, s *goquery.Selection) {
		assert.Contains(t, s.Text(), "Costs: ")
		assert.Regexp(t, `\d %`, s.Text())
	})
	assert.Positive(t, v.doc.Find("#cutline > li").Length())
	assert.NotContains(t, v.doc.Find("#cutline").Text(), "Door garland", "a must-have must not be on the cut line")
	hands := ""
	v.doc.Find("#fixes input[name=id]").Each(func(_ int, s *goquery.Selection) {
		if key := s.AttrOr("value", ""); strings.HasPrefix(key, "hands/") && !strings.Contains(key, "+") {
			hands = key
		}
	})
	require.NotEmpty(t, hands)
	clock := func() *forecast.Forecast {
		j, _ := w.read("reading")
		return forecast.New(j, plan.Make(j), 0, forecast.Usual, nil)
	}
	before := clock().Odds
	reply := page.Post(v.world1(), "/jobs/reading/clock", form.Values{"act": {"fix"}, "id": {hands}})
	require.Len(t, reply.Writes, 1)
	assert.Contains(t, reply.Flash, "One more person")
	w.write(job.Author{Role: job.Owner, Name: "Dora"}, reply.Writes[0])
	j, _ := w.read("reading")
	require.Len(t, j.Crew, 4)
	assert.Greater(t, clock().Odds, before)
	v.visit("/jobs/reading/history")
	assert.Positive(t, v.doc.Find("form input[name=act][value=revert]").Length(), "the history must offer an undo")

	v.visit("/jobs/reading/clock")
	wrong := page.Post(v.world1(), "/jobs/reading/clock", form.Values{"act": {"fix"}, "id": {"out/door"}})
	assert.Empty(t, wrong.Writes, "a must-have cannot be left out")
	helper := w.visitor(job.Helper, "Bea")
	refused := page.Post(helper.world1(), "/jobs/reading/clock", form.Values{"act": {"fix"}, "id": {hands}})
	assert.Equal(t, 403, refused.Status)
	assert.Zero(t, helper.visit("/jobs/reading/clock?help=1").doc.Find("#fixes, #cutline, #help").Length(),
		"helpers must not see fixes and costs")
	lead := w.visitor(job.Lead, "Ines").visit("/jobs/reading/clock?help=1").doc
	assert.Zero(t, lead.Find("#fixes").Length())
	assert.Positive(t, lead.Find("#cutline > li").Length(), "a lead must see the cut line")
}

// TestUndoOfAFixTakesAllOfItBack checks that one undo reverts a whole fix, even if it changed several things.
func TestUndoOfAFixTakesAllOfItBack(t *testing.T) {
	w := newWorld(t)
	w.load("reading", "reading-room.json")
	dora := job.Author{Role: job.Owner, Name: "Dora"}
	w.write(dora, page.Write{Job: "reading", Changes: []job.Change{job.Put("piece/columns", "built", "site")}})
	v := w.visitor(job.Owner, "Dora").visit("/jobs/reading/clock")
	for _, key := range []string{"hands/0", "hands/0x2", "skill/tomasz", "sooner/60", "out/shelfwall",
		"home/shelfwall", "thin/door", "plain/door", "ahead/columns/20", "ahead/columns/7", "ladder",
		"out/shelfwall+hands/0+sooner/30"} {
		before, _ := w.read("reading")
		reply := page.Post(v.world1(), "/jobs/reading/clock", form.Values{"act": {"fix"}, "id": {key}})
		require.Len(t, reply.Writes, 1, key)
		require.NotNil(t, reply.Undo, key)
		w.write(dora, reply.Writes[0])
		changed, _ := w.read("reading")
		assert.NotEqual(t, design(before), design(changed), key)
		back := page.Post(v.world1(), "/jobs/reading/do",
			form.Values{"act": {reply.Undo.Act}, "e": {""}, "text": {reply.Undo.Text}})
		require.Len(t, back.Writes, 1, key)
		w.write(dora, back.Writes[0])
		after, _ := w.read("reading")
		assert.Equal(t, design(before), design(after), key)
	}
	for _, text := range []string{"", "brief", "brief in,piece/nothing built", "piece/door name"} {
		wrong := page.Post(w.visitor(job.Owner, "Olek").visit("/jobs/reading/clock").world1(), "/jobs/reading/do",
			form.Values{"act": {"unfix"}, "text": {text}})
		assert.Empty(t, wrong.Writes, "somebody else's changes must stay: %s", text)
	}
}

// design encodes the part of a job that fixes may change.
func design(j job.Job) string {
	pieces, _ := json.Marshal(j.Pieces) // which have pointers
	return fmt.Sprintf("%+v|%s|%+v|%v", j.Crew, pieces, j.Kit, j.Brief.In)
}

func TestWhatIfIsAPlainForm(t *testing.T) {
	w := newWorld(t)
	w.load("reading", "reading-room.json")
	v := w.visitor(job.Lead, "Ines").visit("/jobs/reading/clock?hands=2&sooner=30")
	formOf := v.doc.Find("form#whatif")
	assert.Equal(t, "get", formOf.AttrOr("method", ""))
	assert.Contains(t, formOf.Text(), "With 2 more beginners")
	assert.Contains(t, formOf.Text(), "Access 30 min sooner")
	assert.Contains(t, formOf.Find("[role=status]").Text(), "Safe bet")
	j, _ := w.read("reading")
	assert.Len(t, j.Crew, 3, "a what-if must not change the job")
	v.visit("/jobs/reading/clock?hands=99&sooner=-5")
	assert.Contains(t, v.doc.Find("form#whatif").Text(), "With 4 more beginners")
}

func TestTheNextCardIsTheOneInThePlan(t *testing.T) {
	w := newWorld(t)
	w.load("reading", "reading-room.json")
	by := job.Author{Role: job.Owner, Name: "Dora"}
	j, _ := w.read("reading")
	var done []job.Change
	for _, c := range plan.Make(j).Cards {
		if c.Place == task.Home || c.Place == task.Load || c.Key == "card/unload" || c.Key == "card/look" {
			done = append(done, job.Put(c.Key, "done", true))
		}
	}
	w.write(by, page.Write{Job: "reading", Changes: done})
	j, _ = w.read("reading")
	c := forecast.New(j, plan.Make(j), 1_800_000_500_000/60_000, forecast.Quick, nil)
	require.True(t, c.Planned())
	titleFor := func(name string) string { // the person's first card in the plan that can start
		for _, next := range c.ByStart() {
			card := cardOf(t, plan.Make(j), next.Key)
			for _, who := range c.Names(next) {
				if who == name && len(card.Waits) == 0 && next.Place == task.Site {
					return next.Title
				}
			}
		}
		return ""
	}
	shown := func(name string) string {
		return w.visitor(job.Helper, name).visit("/jobs/reading/next").doc.Find(".cardtitle a").Text()
	}
	for _, name := range []string{"Ines", "Tomasz", "Bea"} {
		assert.Equal(t, titleFor(name), shown(name), name)
	}
	assert.NotEmpty(t, shown("Olek"), "somebody outside the crew must get the earliest card")
	var key, whose string // a card for one person, so nobody is asked to help
	for _, task := range c.Tasks {
		for _, name := range []string{"Ines", "Tomasz", "Bea"} {
			if task.Title == titleFor(name) && task.Hands == 1 {
				key, whose = task.Key, name
			}
		}
	}
	require.NotEmpty(t, key)
	w.write(by, page.Write{Job: "reading", Changes: []job.Change{job.Put(key, "taken", "Olek")}})
	assert.NotEqual(t, titleFor(whose), shown(whose), "if somebody else takes it, the plan must adapt")
	assert.Equal(t, titleFor(whose), shown("Olek"), "whoever took it must keep it")
}

// TestSiteHelpersGetNoCardAtHome checks an evening at home: Bea, who only comes to the site, gets no card, and Ines,
// who helps at home, gets one.
func TestSiteHelpersGetNoCardAtHome(t *testing.T) {
	w := newWorld(t)
	w.load("reading", "reading-room.json")
	j, _ := w.read("reading")
	in, _ := j.Brief.In.Time()
	shown := func(name string) *goquery.Document {
		v := w.visitor(job.Helper, name)
		v.now = in.UnixMilli() - 36*3_600_000
		return v.visit("/jobs/reading/next").doc
	}
	assert.NotEmpty(t, shown("Ines").Find(".cardtitle a").Text())
	bea := shown("Bea")
	assert.Empty(t, bea.Find(".cardtitle a").Text())
	assert.Regexp(t, `Your next task starts at \d\d:\d\d: \w+`, bea.Text())
}

// TestTheSecondPersonGetsTheCardForTwo has Ines take a card that needs two. Her partner in the plan gets it next, and
// the lead sees who helps whom.
func TestTheSecondPersonGetsTheCardForTwo(t *testing.T) {
	w := newWorld(t)
	w.load("reading", "reading-room.json")
	by := job.Author{Role: job.Owner, Name: "Dora"}
	j, _ := w.read("reading")
	var done []job.Change
	for _, c := range plan.Make(j).Cards {
		if c.Place == task.Home || c.Place == task.Load || strings.HasPrefix(c.Key, "card/make/") || c.Key == "card/unload" ||
			c.Key == "card/look" {
			done = append(done, job.Put(c.Key, "done", true))
		}
	}
	w.write(by, page.Write{Job: "reading", Changes: append(done, job.Put("card/frame/stand", "taken", "Ines"))})
	in, _ := j.Brief.In.Time()
	now := in.UnixMilli() + 30*60_000
	v := w.visitor(job.Helper, "Tomasz") // Bea comes later, so nobody else is there
	v.now = now
	v.visit("/jobs/reading/next")
	assert.Equal(t, "Put up Wide frame", v.doc.Find(".cardtitle a").Text())
	lead := w.visitor(job.Lead, "Dora")
	lead.now = now
	says := lead.visit("/jobs/reading/clock").doc.Find("ul.hints").First().Text()
	assert.Contains(t, says, "Ines Put up Wide frame")
	assert.Contains(t, says, "Tomasz helps Ines: Put up Wide frame")
	assert.Contains(t, says, "Bea not there; from 08:00")
}

func cardOf(t *testing.T, p plan.Plan, key string) task.Card {
	t.Helper()
	for _, c := range p.Cards {
		if c.Key == key {
			return c
		}
	}
	t.Fatalf("no card %s", key)
	return task.Card{}
}

func TestALeadSeesWhoIsOnWhat(t *testing.T) {
	w := newWorld(t)
	w.load("reading", "reading-room.json")
	at := w.visitor(job.Lead, "Ines").world1()
	at.Now = 1809759600000 // 8 May 2027, 7:00 UTC; without a zone this is the venue's time
	at.Clocks = &forecast.Cache{AtOnce: true}
	reply := page.Get(at, "/jobs/reading/clock", nil)
	var b strings.Builder
	require.NoError(t, reply.Body.Render(&b))
	assert.Contains(t, b.String(), "<h2>Now</h2>")
	at.Visitor.Role = job.Helper
	b.Reset()
	require.NoError(t, page.Get(at, "/jobs/reading/clock", nil).Body.Render(&b))
	assert.NotContains(t, b.String(), "<h2>Now</h2>")
}
