package main

import (
	"fmt"
	"net/http"
	"net/url"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/plan/task"
)

// nurseryParty is a job whose doors open 90 minutes after the given time. The crew has access.
func nurseryParty(now time.Time) string {
	at := func(minutes int) string {
		return now.Add(time.Duration(minutes) * time.Minute).UTC().Format("2006-01-02T15:04")
	}
	return fmt.Sprintf(`{"garlandry": 1,
"brief": {"title": "Nursery party", "date": %q, "venue": "The long hut",
	"in": %q, "doors": %q, "zone": "UTC", "units": "metric"},
"colours": [{"id": "plum", "name": "Plum", "value": "#7b3f61", "sizes": [5, 11]}],
"crew": [{"id": "ines", "name": "Ines", "skill": "practised", "home": true},
	{"id": "tomasz", "name": "Tomasz", "skill": "beginner", "home": true}],
"kit": [{"id": "pump", "kind": "pump", "name": "Pump", "count": 1},
	{"id": "van", "kind": "car", "name": "Van", "count": 1, "litres": 6000, "longest_mm": 2500}],
"pieces": [
{"id": "posts", "name": "Gate posts", "kind": "column",
	"height_mm": 1500, "count": 2, "recipe": "2x11@9", "colours": [{"colour": "plum", "weight": 1}], "accents": 0,
		"priority": "must", "built": "home"},
{"id": "tables", "name": "Table tops", "kind": "tables",
	"count": 6, "each": 5, "size_in": 5, "to_in": 4.5, "colours": [{"colour": "plum", "weight": 1}],
	"priority": "could", "built": "home"}]}`,
		at(0)[:10], at(-30), at(90))
}

// TestForecastFollowsTwoPhones runs the event day. A lead watches the clock while two helpers tick and count on their
// own phones. The lead's forecast updates by itself and says when everything is done.
func TestForecastFollowsTwoPhones(t *testing.T) {
	inBrowser(t)
	server := startServer(t, t.TempDir(), "", true)
	text := nurseryParty(time.Now())
	owner := visitor(t, server.link, "")
	answer, err := owner.PostForm(server.address+"/import", url.Values{"text": {text}})
	require.NoError(t, err)
	document(t, answer)
	id := strings.Split(answer.Request.URL.Path, "/")[2]
	at := server.address + "/jobs/" + id

	watch := newPhone(t, t.TempDir())
	watch.join(freshLink(t, owner, server.address, id, "Dora", "lead"), "Dora")
	watch.ready()
	watch.open(at + "/clock")
	watch.ready()
	verdict := func() string { return watch.text(`document.querySelector('#clock-answer').dataset.verdict`) }
	watch.until(`document.querySelector('#clock-answer .facts')`)
	watch.until(`document.querySelector('#clock-answer').dataset.verdict === 'late'`) // nothing is made yet

	phones := []*phone{
		joinedHelper(t, owner, server.address, id, "Ines"),
		joinedHelper(t, owner, server.address, id, "Tomasz"),
	}
	changes, err := job.DecodeFile([]byte(text))
	require.NoError(t, err)
	cards := plan.Make(job.Preview(changes)).Cards
	before := watch.text(`document.querySelector('#clock-answer').innerText`)
	for i, card := range cards {
		if card.Place == task.Home || card.Place == task.Load {
			doCard(phones[i%2], at, card)
		}
	}
	watch.until(`document.querySelector('#clock-answer').dataset.verdict === 'sure'`)
	watch.sees("sooner than before")
	assert.NotEqual(t, before, watch.text(`document.querySelector('#clock-answer').innerText`))
	watch.shot("forecast")
	for i, card := range cards {
		if card.Place == task.Site {
			assert.NotEqual(t, "done", verdict(), "%s is not done yet", card.Title)
			doCard(phones[i%2], at, card)
		}
	}
	watch.sees("All done")
	assert.Equal(t, "done", verdict())
	phones[1].open(at + "/clock")
	phones[1].ready()
	phones[1].sees("All done")
}

// joinedHelper returns the phone of a helper who has just joined.
func joinedHelper(t *testing.T, owner *http.Client, address, id, name string) *phone {
	t.Helper()
	p := newPhone(t, t.TempDir())
	p.join(freshLink(t, owner, address, id, name, "helper"), name)
	p.ready()
	return p
}

// doCard ticks a card, or counts the whole card with one tap.
func doCard(p *phone, at string, card task.Card) {
	p.open(at + "/cards/" + strings.TrimPrefix(card.Key, "card/"))
	p.ready()
	if card.Count == 0 {
		p.tap(`form:has([name=act][value=tick]) button`)
		p.until(`document.querySelector('.isdone')`)
	} else {
		p.tap(`.tallyone form:has([name=act][value=count]) button`)
		p.sees("the count of " + strconv.Itoa(card.Count))
	}
}
