package plan_test

import (
	"encoding/json"
	"regexp"
	"strings"
	"testing"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/plan/look"
	"garlandry/calc/measure"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// archRoom returns a job with an arch and more changes, and where the arch then is.
func archRoom(t *testing.T, more ...job.Change) (job.Job, look.Item) {
	t.Helper()
	changes := piece("arch", "garland", map[string]any{"name": "Arch", "line": "arch", "width_mm": 2400,
		"height_mm": 2200, "accents": 0})
	j := made(append(append(changes, job.Put("brief", "units", "metric")), more...)...)
	p := plan.Make(j)
	item, there := p.Room(0).Item("piece/arch")
	require.True(t, there)
	return j, item
}

// What does not fit is said with figures, in the units of the job. Sizes are those of the arch as it looks.
func TestTheRoomSaysWhatDoesNotFit(t *testing.T) {
	_, arch := archRoom(t)
	high, wide := arch.TopMM-arch.BottomMM, arch.RightMM-arch.LeftMM
	put := func(field string, mm float64) job.Change { return job.Put("piece/arch", field, mm) }
	width := func(mm float64) job.Change { return job.Put("brief", "room_width_mm", mm) }
	height := func(mm float64) job.Change { return job.Put("brief", "room_height_mm", mm) }
	door := func(at float64) []job.Change {
		return []job.Change{job.Put("box/d", "kind", "door"), job.Put("box/d", "name", "Fire door"),
			job.Put("box/d", "at_mm", at), job.Put("box/d", "width_mm", 900), job.Put("box/d", "height_mm", 2000)}
	}
	for _, tt := range []struct {
		name    string
		changes []job.Change
		metric  string // empty: nothing is said
		feet    string
	}{
		{"a room without sizes", nil, "", ""},
		{"it fits just so", []job.Change{width(wide + 1), height(high + 1)}, "", ""},
		{"higher", []job.Change{height(high - 300)}, "Arch is 30 cm higher than the room.",
			"Arch is 11.8 in higher than the room."},
		{"hung too high, though the room is high enough", []job.Change{height(high + 100), put("up_mm", 500)},
			"Arch hangs 40 cm too high for the room.", "Arch hangs 1 ft 3.5 in too high for the room."},
		{"wider", []job.Change{width(wide - 1220)}, "Arch is 1.22 m wider than the room.",
			"Arch is 4 ft wider than the room."},
		{"past the right wall", []job.Change{width(5000), put("at_mm", 5200-wide/2)},
			"Arch reaches 20 cm past the right wall.", "Arch reaches 7.9 in past the right wall."},
		{"past the left wall", []job.Change{width(5000), put("at_mm", wide/2-150)},
			"Arch reaches 15 cm past the left wall.", "Arch reaches 5.9 in past the left wall."},
		{"left of a room whose width nobody said", []job.Change{put("at_mm", 0)}, "", ""},
		{"at the wall, as balloons give way", []job.Change{width(5000), put("at_mm", wide/2-15)}, "", ""},
		{"in the floor", []job.Change{put("up_mm", -250)}, "Arch is 25 cm below the floor.",
			"Arch is 9.8 in below the floor."},
		{"a low door within the arch", append(door(2000), put("at_mm", 2000), job.Put("box/d", "height_mm", 1700)), "", ""},
		{"a door beside the arch", append(door(6000), put("at_mm", 2000)), "", ""},
	} {
		t.Run(tt.name, func(t *testing.T) {
			for units, want := range map[measure.System]string{measure.Metric: tt.metric, measure.Imperial: tt.feet} {
				j, _ := archRoom(t, append(tt.changes, job.Put("brief", "units", string(units)))...)
				assert.Equal(t, want, strings.Join(roomWords(plan.Make(j)), " "), units)
			}
		})
	}
	j, _ := archRoom(t, append(door(2000+wide/2), put("at_mm", 2000))...)
	words := roomWords(plan.Make(j))
	require.Len(t, words, 1)
	assert.Regexp(t, `^Arch hangs in front of Fire door with [1-9]\d* balloons\. Keep exits and exit signs clear\.$`,
		words[0])
}

// roomWords lists the notes about the room. They are the only ones with these words.
func roomWords(p plan.Plan) (list []string) {
	for _, n := range p.Notes {
		for _, words := range []string{" the room", " wall.", "the floor.", "signs clear"} {
			if strings.Contains(n.Text, words) {
				list = append(list, n.Text)
				break
			}
		}
	}
	return list
}

// Pieces that are placed by themselves are said to be too wide together once, not one by one.
func TestPiecesSideBySideAreSaidToBeTooWideOnce(t *testing.T) {
	changes := []job.Change{job.Put("brief", "units", "metric"), job.Put("brief", "room_width_mm", 3000)}
	for _, id := range []string{"a", "b", "c", "d"} {
		changes = append(changes, piece(id, "column", map[string]any{"height_mm": 1800})...)
	}
	p := plan.Make(made(changes...))
	item, _ := p.Room(0).Item("piece/d")
	require.Greater(t, item.RightMM, 3020.0)
	assert.Equal(t, []string{"Side by side, the pieces are " +
		measure.FormatSmallLength(item.RightMM-3000, measure.Metric) +
		" wider than the room. Place some yourself."}, roomWords(p))
}

// A cached plan of a job whose places changed is the plan of that job, and keeps the looks of its pieces.
func TestCacheFollowsPlacesWithoutCountingAnew(t *testing.T) {
	var c plan.Cache
	j := readJob(t, "reading-room")
	first := c.Plan(j, plan.DesignFingerprint(j))
	seen := first.Look(&first.Pieces[0], 0)
	moved := job.Try(j, []job.Change{job.Put("piece/"+j.Pieces[0].ID, "at_mm", 9000),
		job.Put("piece/"+j.Pieces[0].ID, "up_mm", 500), job.Put("brief", "room_height_mm", 1000),
		job.Put("box/door", "name", "Door")})
	again := c.Plan(moved, plan.DesignFingerprint(moved))
	assert.Same(t, seen, again.Look(&again.Pieces[0], 0), "drawn once")
	want := plan.Make(moved)
	assert.Equal(t, want.Notes, again.Notes)
	assert.Equal(t, want.Pieces, again.Pieces)
	assert.Equal(t, want.Room(0), again.Room(0))
	assert.Equal(t, want.Room(50), again.Room(50))
	assert.NotEqual(t, first.Room(0), again.Room(0))
	back := c.Plan(j, plan.DesignFingerprint(j))
	assert.Equal(t, first.Notes, back.Notes, "notes about the room go with it")
	assert.Equal(t, first.Pieces, back.Pieces)
	larger := job.Try(moved, []job.Change{job.Put("piece/"+j.Pieces[0].ID, "recipe", "4x11@10")})
	want, again = plan.Make(larger), c.Plan(larger, plan.DesignFingerprint(larger))
	assert.Equal(t, want.Pieces, again.Pieces, "another design is counted anew")
}

// Places, boxes and the size of the room change no count, no pack line and no card.
func TestPlacesDoNotChangeTheCounts(t *testing.T) {
	j := readJob(t, "orchard-wedding")
	changes := []job.Change{job.Put("brief", "room_width_mm", 4000), job.Put("brief", "room_height_mm", 2000),
		job.Put("box/door", "name", "Door")}
	for i, p := range j.Pieces {
		changes = append(changes, job.Put("piece/"+p.ID, "at_mm", 1000*i), job.Put("piece/"+p.ID, "up_mm", 100))
	}
	before, after := plan.Make(j), plan.Make(job.Try(j, changes))
	place := regexp.MustCompile(`"(at|up)_mm":\d+,`) // of the pieces that lines refer to
	written := func(p plan.Plan) string {
		text, err := json.Marshal([]any{p.Balloons, p.Pack, p.Cards})
		require.NoError(t, err)
		return place.ReplaceAllString(string(text), "")
	}
	assert.True(t, written(before) == written(after))
	assert.Greater(t, len(after.Notes), len(before.Notes))
}
