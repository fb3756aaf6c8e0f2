package serve_test

import (
	"encoding/json"
	"fmt"
	"net/url"
	"strconv"
	"strings"
	"testing"
	"time"

	"garlandry/app/job"
	wire "garlandry/app/sync"
	"garlandry/testdata/long"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// filler returns a request of nearly a megabyte, with operations that a helper's link allows.
func (s *site) filler(device string, n, waits int) string {
	value, err := json.Marshal(strings.Repeat("x", 19_900))
	require.NoError(s.t, err)
	var ops []job.Op
	for i := range 48 {
		ops = append(
			ops,
			job.Op{ID: fmt.Sprintf("%sx%dx%d", device, n, i), Device: device, Number: uint64(48*n + i + 1), Version: 1,
				Kind: job.Set, Entity: "card/make/door", Field: "stands", Value: value, Wall: s.nowMS.Load()},
		)
	}
	data, err := json.Marshal(
		wire.Request{V: wire.WireVersion, App: "test", Device: device, Now: s.nowMS.Load(), Max: 1,
			Ops: ops, Waits: waits > 0},
	)
	require.NoError(s.t, err)
	require.Less(s.t, len(data), wire.MaxBytes)
	return string(data)
}

// TestAHelperCannotFillAJob checks that 131 requests of a megabyte, sent in 19 seconds by one helper, neither fill a
// job nor lock anybody out of it.
func TestAHelperCannotFillAJob(t *testing.T) {
	for name, row := range map[string]struct{ requests, waits int }{"a phone of this build": {131, 1},
		"a phone of an earlier build": {12, 0}} {
		t.Run(name, func(t *testing.T) {
			waits := row.waits
			if row.requests > 100 {
				long.Test(t, "a phone that sends all it may in an hour")
			}
			s := newSite(t)
			owner := s.owner()
			helper, _ := s.helper(owner)
			other := s.stranger()
			require.Equal(t, 303,
				other.post("/j", url.Values{"token": {owner.link(url.Values{"name": {"Bea"}, "role": {"helper"}})}}).StatusCode)
			statuses := map[int]int{}
			for n := range row.requests {
				s.later(145 * time.Millisecond)
				got := helper.sync(syncPath, s.filler("phone1", n, waits))
				if statuses[got.StatusCode]++; got.StatusCode == 429 {
					pause, err := strconv.Atoi(got.Header.Get("Retry-After"))
					require.NoError(t, err)
					assert.Positive(t, pause)
					assert.LessOrEqual(t, pause, 3600)
				}
			}
			jobs, err := s.store.Jobs(s.store.System("test"))
			require.NoError(t, err)
			for _, j := range jobs {
				assert.Less(t, j.Ops, uint64(500), "4 MiB an hour")
			}
			tick := s.op(1, "card/make/door", "done", "true")
			tick.Device, tick.ID = "phone2", "optickoftheowner1"
			assert.Equal(t, wire.OK, ack(t, owner, "phone2", tick), "the owner's phone")
			assert.Equal(t, 303, owner.post("/jobs/reading/brief", url.Values{"title": {"Still mine"}}).StatusCode,
				"the owner's forms")
			tick.Device, tick.ID = "phone3", "optickofbea000001"
			assert.Equal(t, wire.OK, ack(t, other, "phone3", tick), "another helper's phone")
			refused := helper.post("/jobs/reading/do", url.Values{"act": {"tick"}, "e": {"card/load"}})
			assert.Equal(t, 429, refused.StatusCode, "the flooding link's forms")
			assert.Contains(t, refused.body, "try again in")
			if waits == 0 {
				assert.Positive(t, statuses[429], "the phone would otherwise resend at once")
			} else {
				assert.Equal(t, map[int]int{200: 131}, statuses)
			}
			s.later(time.Hour)
			assert.Equal(t, 303, helper.post("/jobs/reading/do", url.Values{"act": {"tick"}, "e": {"card/load"}}).StatusCode,
				"an hour later")
		})
	}
}

// ack sends one operation and returns its result.
func ack(t *testing.T, p *phone, device string, op job.Op) wire.Result {
	data, err := json.Marshal(
		wire.Request{V: wire.WireVersion, App: "test", Device: device, Now: p.nowMS.Load(), Max: 1,
			Ops: []job.Op{op}, Waits: true},
	)
	require.NoError(t, err)
	got := p.sync(syncPath, string(data))
	require.Equal(t, 200, got.StatusCode, got.body)
	resp, err := wire.DecodeResponse([]byte(got.body))
	require.NoError(t, err)
	require.Len(t, resp.Acks, 1)
	return resp.Acks[0].Result
}

// TestTheOwnerIsToldWhoFillsAJob checks that the owner is told, on the job's first page and by the phone, which link
// fills a job. The Share page names it, with amount and time, and can end it, which also ends the warning.
func TestTheOwnerIsToldWhoFillsAJob(t *testing.T) {
	s := newSite(t)
	owner := s.owner()
	helper, _ := s.helper(owner)
	told := func() bool {
		onPage := owner.get("/jobs/reading").doc(t).Find("#to-room").Length() == 1
		onPhone := strings.Contains(owner.get("/api/v1/me").body, `"crowded":true`)
		assert.Equal(t, onPage, onPhone, "phone and server must agree")
		return onPage
	}
	require.Equal(t, 303, helper.post("/jobs/reading/do", url.Values{"act": {"tick"}, "e": {"card/load"}}).StatusCode)
	assert.False(t, told())
	share := owner.get("/jobs/reading/share").doc(t)
	assert.Contains(t, share.Find("#room-list").Text(), "Ines2 changes", "the Share page always lists who wrote how much")
	assert.Zero(t, share.Find(`#room-list form[action$="/share/end"]`).Length())
	for n := range 6 {
		helper.sync(syncPath, s.filler("flooder", n, 1))
	}
	assert.True(t, told())
	assert.Zero(t, helper.get("/jobs/reading").doc(t).Find("#to-room").Length(), "nobody else may be told")
	assert.NotContains(t, helper.get("/api/v1/me").body, "crowded")
	share = owner.get("/jobs/reading/share").doc(t)
	line := share.Find("#room-list li").First()
	assert.Contains(t, line.Text(), "Ines")
	assert.Contains(t, line.Text(), "this hour")
	assert.Contains(t, line.Text(), "4.2 MB")
	link := line.Find(`form input[name="link"]`).AttrOr("value", "")
	require.Equal(t, 303, owner.post("/jobs/reading/share/end", url.Values{"link": {link}}).StatusCode)
	assert.False(t, told())
	assert.Contains(t, owner.get("/jobs/reading/share").doc(t).Find("#room-list li").First().Text(), "link ended")
}

// TestTheOwnerSetsALinkAside checks that one button on the Share page ends a link and sets its operations aside, and
// that the security log records it.
func TestTheOwnerSetsALinkAside(t *testing.T) {
	s := newSite(t)
	owner := s.owner()
	helper, _ := s.helper(owner)
	for n := range 6 {
		helper.sync(syncPath, s.filler("flooder", n, 1))
	}
	page := owner.get("/jobs/reading/share").doc(t)
	form := page.Find(`#room-list form[action$="/share/room"]`).First()
	require.Equal(t, 1, form.Length())
	values := url.Values{"link": {form.Find(`input[name="link"]`).AttrOr("value", "")}, "since": {"ever"}}
	require.NotEmpty(t, values.Get("link"))
	assert.Equal(t, 404, helper.post("/jobs/reading/share/room", values).StatusCode, "only the owner may")
	assert.Equal(t, 404, owner.post("/jobs/other/share/room", values).StatusCode, "a link of another job")
	assert.Equal(t, 404,
		owner.post("/jobs/reading/share/room", url.Values{"link": values["link"], "since": {"x"}}).StatusCode)
	got := owner.post("/jobs/reading/share/room", values)
	require.Equal(t, 303, got.StatusCode, got.body)
	assert.Equal(t, 403, helper.get("/jobs/reading/next").StatusCode, "the link has ended")
	filled, err := s.store.FilledBy("reading")
	require.NoError(t, err)
	lines := strings.Join(owner.securityLines("?show=limits"), "\n")
	assert.Contains(t, lines, "Changes set aside")
	assert.Contains(t, lines, strconv.Itoa(int(filled.Links[values.Get("link")].Ops))+" changes")
}
