package device_test

import (
	"encoding/json"
	"strings"
	"testing"

	"garlandry/app/job"
	"garlandry/app/sync"
	"garlandry/app/sync/server"
	"garlandry/pwa/device"
	stored "garlandry/testdata/before"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// earlier opens a phone's storage from the previous build, without signal.
func earlier(t *testing.T, name string, author job.Author) (*tab, stored.Phone) {
	t.Helper()
	phone := stored.Read[stored.Phone](t, "phone-"+name+".json.gz")
	d := &disk{rows: map[string]string{}}
	for _, row := range phone.Stores.Text {
		switch row[0] {
		case "generation":
			d.generation = row[1]
		case "commit":
			d.token = row[1]
		default:
			d.rows[row[0]] = row[1]
		}
	}
	w := newWorld(t)
	w.clock.Store(stored.Now)
	wi := &wire{world: w, session: server.Session{ID: "session", Author: author}, offline: true}
	return w.open(&handle{disk: d, left: -1}, wi, &[]*tab{}), phone
}

// TestThePhoneOfAnEarlierBuildOpens checks that the owner's phone from the previous build shows its jobs without
// signal. It shares everything, waiting or shared before, with a server that has lost its data.
func TestThePhoneOfAnEarlierBuildOpens(t *testing.T) {
	said := stored.Read[stored.Said](t, "said.json")
	logs := stored.Read[map[string]stored.Log](t, "records.json.gz")
	b, _ := earlier(t, "owner", job.Author{Role: job.Owner})
	for _, id := range []string{said.Demo, said.Typed, said.Lantern} {
		for _, page := range []string{"", "/cards", "/pack", "/counts", "/brief", "/history"} {
			d := b.get("/jobs/" + id + page)
			assert.Equal(t, "drawn", d.Type, page)
			assert.NotEmpty(t, d.Parts["page"], page)
			assert.Positive(t, d.Waiting)
		}
	}
	assert.Contains(t, b.get("/jobs/"+said.Lantern).Title, "Lantern evening")
	for name, id := range map[string]string{"demo": said.Demo, "typed": said.Typed} {
		d := b.get("/jobs/" + id + "/export")
		require.Equal(t, "file", d.Type)
		if name == "demo" { // it has nothing waiting
			assert.Equal(t, string(stored.File(t, "exports/demo.json")), d.Text)
		}
	}

	b.wire.set(online)
	b.say("wake")
	b.get("/jobs/" + said.Typed)
	b.hold("all to be shared", func() bool {
		return len(b.records(said.Typed)) == len(logs["typed"].Records)+1 &&
			len(b.records(said.Demo)) == len(logs["demo"].Records) &&
			len(b.records(said.Demo+sync.OwnSuffix)) == len(logs["demo"].Own) &&
			len(b.records(said.Lantern)) > 0
	})
	log := b.records(said.Typed)
	var note string
	require.NoError(t, json.Unmarshal(log[len(log)-1].Value, &note))
	assert.Equal(t, []string{"card/load", "note", "Ask for the goods lift"},
		[]string{log[len(log)-1].Entity, log[len(log)-1].Field, note})
}

// TestTheJournalOfAnEarlierBuildIsAdopted checks that the previous build's journal of posts changes nothing in a full
// storage and restores them in an empty one.
func TestTheJournalOfAnEarlierBuildIsAdopted(t *testing.T) {
	said := stored.Read[stored.Said](t, "said.json")
	for _, row := range []struct {
		name string
		lost bool
	}{{"the storage holds them too", false}, {"the storage was cleared", true}} {
		t.Run(row.name, func(t *testing.T) {
			b, phone := earlier(t, "owner", job.Author{Role: job.Owner})
			if row.lost {
				b.disk.clear()
				b = b.again()
			}
			b.wire.set(online)
			b.say("wake") // its first request may have failed
			b.enter("/")
			adopted := 0
			for key, text := range phone.Local {
				id, is := strings.CutPrefix(key, "garlandry-journal ")
				var entry struct{ Copy string }
				if is && json.Unmarshal([]byte(text), &entry) == nil && entry.Copy != "" {
					b.inbox <- device.Message{Type: "adopt", ID: id, Text: entry.Copy}
					adopted++
				}
			}
			require.Equal(t, 2, adopted)
			b.get("/")
			b.sent()
			title := 0
			for _, r := range b.records(said.Lantern) {
				if r.Entity == "brief" && r.Field == "title" {
					title++
				}
			}
			assert.Equal(t, 1, title, "the job made without signal must exist once")
		})
	}
}
