package page_test

import (
	"regexp"
	"strings"
	"testing"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/pwa/form"
	"garlandry/pwa/view"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestEveryPictureIsEnough checks that each picture of a new job, tapped alone in either system of units, makes a piece
// that can be counted, of the usual size that the form shows.
func TestEveryPictureIsEnough(t *testing.T) {
	for _, p := range view.StartPieces() {
		for _, units := range []string{"metric", "imperial"} {
			t.Run(p.Key+" "+units, func(t *testing.T) {
				v := newWorld(t).visitor(job.Owner, "Dora")
				v.visit("/new").submit("#new-job", form.Values{"units": {units}, "build": {p.Key}, "colours": {"coral"}})
				require.Equal(t, 200, v.reply.Status, v.text())
				counted := plan.Design(v.current()).Pieces
				require.Len(t, counted, 1)
				assert.Positive(t, counted[0].Balloons)
				assert.Equal(t, units, v.current().Brief.Units)
			})
		}
	}
}

// TestANewJobIsNamedByWhatItIs checks the title that an empty one stands for.
func TestANewJobIsNamedByWhatItIs(t *testing.T) {
	rows := []struct {
		name   string
		values form.Values
		want   string
	}{
		{"nothing yet", form.Values{"date": {"2027-06-12"}}, "Balloons, 12 June"},
		{"no day", form.Values{"date": {""}, "build": {"wall"}}, "Wall"},
		{"two", form.Values{"date": {"2027-06-12"}, "build": {"column", "garland"}}, "Garland and 2 columns, 12 June"},
		{"one column", form.Values{"date": {"2027-06-12"}, "build": {"column"}, "piece.column": {"1"}},
			"Column, 12 June"},
		{"three", form.Values{"date": {"2027-06-12"}, "build": {"arch", "hoop", "tables"}},
			"Arch, hoop garland and 6 table pieces, 12 June"},
		{"many", form.Values{"date": {"2027-06-12"}, "build": {"arch", "hoop", "tables", "numbers"}},
			"Arch, hoop garland and more, 12 June"},
		{"a typed one", form.Values{"title": {"Fête"}, "build": {"arch"}}, "Fête"},
	}
	for _, row := range rows {
		t.Run(row.name, func(t *testing.T) {
			v := newWorld(t).visitor(job.Owner, "Dora")
			v.visit("/new").submit("#new-job", row.values)
			require.Equal(t, 200, v.reply.Status, v.text())
			assert.Equal(t, row.want, v.current().Brief.Title)
		})
	}
}

// TestADayStandsOnceBesideTheTitle checks that the first page of a job and the list of jobs do not say the day again
// that a title ends with, and say it where the title does not, such as after the day was moved.
func TestADayStandsOnceBesideTheTitle(t *testing.T) {
	v := newWorld(t).visitor(job.Owner, "Dora")
	v.visit("/new").submit("#new-job", form.Values{"date": {"2027-06-12"}, "build": {"garland"}})
	overview := "/jobs/" + v.current().ID
	for _, row := range []struct {
		name, date, want string
		days             int
	}{
		{"as titled", "2027-06-12", "Saturday", 1},
		{"moved", "2027-06-13", "Sun 13 Jun", 2},
	} {
		v.visit(overview+"/brief").submit("#edit-brief", form.Values{"date": {row.date}})
		heading := v.visit(overview).doc.Find(".heading").Text()
		listed := v.visit("/").doc.Find(".jobrow").Text()
		for _, text := range []string{heading, listed} {
			assert.Contains(t, text, "Garland, 12 June", row.name)
			assert.Contains(t, text, row.want, row.name)
			assert.Len(t, regexp.MustCompile(`\d+ Jun`).FindAllString(text, -1), row.days, "%s: %s", row.name, text)
		}
	}
}

// TestANewJobFollows checks that what nobody typed follows what somebody did, and that nothing typed changes.
func TestANewJobFollows(t *testing.T) {
	rows := []struct {
		name   string
		values form.Values
		want   map[string]string
	}{
		{"access, four hours before the doors", form.Values{"doors": {"19:30"}}, map[string]string{"in": "15:30"}},
		{"not before midnight", form.Values{"doors": {"03:30"}}, map[string]string{"in": "00:30"}},
		{"a typed access stays", form.Values{"in": {"08:00"}, "doors": {"12:00"}}, map[string]string{"in": "08:00"}},
		{"sizes follow the units", form.Values{"units": {"metric"}},
			map[string]string{"piece.garland": "3 m", "piece.arch": "2.6 x 2.4 m", "piece.column": "2"}},
		{"a typed size stays", form.Values{"units": {"metric"}, "piece.wall": {"10 x 8 ft"}},
			map[string]string{"piece.wall": "10 x 8 ft", "piece.hoop": "2 m"}},
	}
	for _, row := range rows {
		t.Run(row.name, func(t *testing.T) {
			v := newWorld(t).visitor(job.Owner, "Dora")
			v.visit("/new")
			typed := standing(v.doc.Find("#new-job"))
			for name, list := range row.values {
				typed[name] = list
			}
			v.visit("/new?" + typed.Query())
			require.Equal(t, 200, v.reply.Status)
			shown := standing(v.doc.Find("#new-job"))
			for name, want := range row.want {
				assert.Equal(t, want, shown.Get(name), name)
			}
			if row.values.Get("piece.wall") != "" {
				assert.Equal(t, []string{"wall"}, shown["build"], "whoever types a size means the piece")
			}
			assert.Empty(t, v.jobs, "drawing writes nothing")
		})
	}
}

// TestNewJobSizesAreReadAsPairs checks that a width and a height typed for a wall are both used, and that one length is
// its width.
func TestNewJobSizesAreReadAsPairs(t *testing.T) {
	rows := []struct {
		name, typed   string
		width, height float64
	}{
		{"both", "3 x 2 m", 3000, 2000},
		{"both in words", "10ft by 8ft", 3048, 2438.4},
		{"the width alone", "3 m", 3000, 2133.6},
	}
	for _, row := range rows {
		t.Run(row.name, func(t *testing.T) {
			v := newWorld(t).visitor(job.Owner, "Dora")
			v.visit("/new").submit("#new-job", form.Values{"piece.wall": {row.typed}})
			require.Equal(t, 200, v.reply.Status, v.text())
			require.Len(t, v.current().Pieces, 1)
			wall := v.current().Pieces[0]
			assert.Equal(t, []float64{row.width, row.height}, []float64{wall.WidthMM, wall.HeightMM})
		})
	}
	v := newWorld(t).visitor(job.Owner, "Dora")
	v.visit("/new").submit("#new-job", form.Values{"piece.wall": {"3 x"}, "colours": {"coral"}})
	require.Equal(t, 422, v.reply.Status)
	assert.Contains(t, v.doc.Find("#f-piece_2ewall-error").Text(), "the height is missing")
	left := standing(v.doc.Find("#new-job"))
	assert.Equal(t, []string{"3 x", "wall", "coral"},
		[]string{left.Get("piece.wall"), left.Get("build"), left.Get("colours")})
}

// TestTheDateOfANewJob checks that a new job is on the next Saturday, never today.
func TestTheDateOfANewJob(t *testing.T) {
	const day = int64(86_400_000)
	friday := int64(1_800_000_500_000) // 15 January 2027
	for days, want := range []string{"2027-01-16", "2027-01-23", "2027-01-23", "2027-01-23"} {
		v := newWorld(t).visitor(job.Owner, "Dora")
		v.now = friday + int64(days)*day
		v.visit("/new")
		assert.Equal(t, want, v.doc.Find(`#new-job [name="date"]`).AttrOr("value", ""), "%d days on", days)
	}
}

// TestANewPieceBeginsWithItsPicture checks that a new piece begins with the usual size of its picture, in the units of
// the job.
func TestANewPieceBeginsWithItsPicture(t *testing.T) {
	v := demo(t).visitor(job.Owner, "Dora")
	v.visit("/jobs/demo/pieces/new")
	require.Equal(t, 1, v.doc.Find(`a.pick[href$="?kind=garland&line=arch"]`).Length())
	shown := func(name string) string { return v.doc.Find(`[name="`+name+`"]`).AttrOr("value", "") }
	v.visit("/jobs/demo/pieces/new?kind=garland&line=arch")
	assert.Equal(t, []string{"Arch", "8 ft", "8 ft"}, []string{shown("name"), shown("width_mm"), shown("height_mm")})
	v.visit("/jobs/demo/pieces/new?kind=garland")
	assert.Equal(t, []string{"Garland", "10 ft"}, []string{shown("name"), shown("length_mm")})
	assert.True(t, strings.Contains(v.doc.Find("#recount").Text(), "clusters"), "it is counted at once")
}
