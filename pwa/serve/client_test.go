package serve_test

import (
	"context"
	"net/url"
	"strings"
	"testing"
	"time"

	"garlandry/app/job"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// clientLink makes a link to the client's page on the Share page and returns its path.
func (p *phone) clientLink(id string, values url.Values) string {
	got := p.post("/jobs/"+id+"/share/look", values)
	require.Equal(p.t, 200, got.StatusCode, got.body)
	address := got.doc(p.t).Find("#fresh-url").AttrOr("value", "")
	_, token, found := strings.Cut(address, "/look/")
	require.True(p.t, found, "no link is shown: %q", address)
	require.Len(p.t, token, 26)
	return "/look/" + token
}

// endClientLinks presses "End link" wherever it stands.
func (p *phone) endClientLinks(id string) {
	forms := p.get("/jobs/" + id + "/share").doc(p.t).Find(`form[action$="/share/look/end"]`)
	require.Positive(p.t, forms.Length())
	for i := range forms.Length() {
		link := forms.Eq(i).Find("input[name=link]").AttrOr("value", "")
		require.Equal(p.t, 303, p.post("/jobs/"+id+"/share/look/end", url.Values{"link": {link}}).StatusCode)
	}
}

// A stranger with the link sees the picture, the date and the colours, and what was ticked.
func TestAClientsLink(t *testing.T) {
	s := newSite(t)
	owner := s.owner()
	client := s.stranger()
	path := owner.clientLink("reading", url.Values{"title": {"yes"}})
	got := client.get(path)
	require.Equal(t, 200, got.StatusCode, got.body)
	doc := got.doc(t)
	assert.Equal(t, "Reading room reopening", doc.Find("h1").Text())
	assert.Equal(t, "Saturday 8 May 2027", doc.Find("header span").Text())
	assert.Greater(t, doc.Find(".cover svg circle").Length(), 500, "the room, of all its balloons")
	assert.Contains(t, doc.Find(".cover svg").AttrOr("aria-label", ""), "Door garland")
	assert.Equal(t, 10, doc.Find(".clientpieces svg").Length())
	assert.Contains(t, doc.Find(".palette").Text(), "Coral")
	assert.NotContains(t, doc.Find("main").Text(), " wide")
	assert.NotContains(t, doc.Find("main").Text(), "Made by")
	assert.Zero(t, doc.Find("script, form, a, button").Length())
	for name, want := range map[string]string{"Cache-Control": "private, no-store", "Referrer-Policy": "no-referrer",
		"X-Robots-Tag": "noindex, nofollow", "Set-Cookie": "",
		"Content-Security-Policy": "default-src 'none'; style-src 'self'; img-src 'self'; base-uri 'none'; " +
			"form-action 'none'; frame-ancestors 'none'"} {
		assert.Equal(t, want, got.Header.Get(name), name)
	}
	assert.Nil(t, client.cookie)

	_, err := s.store.Write(context.Background(), s.store.System("test"), "reading",
		[]job.Change{job.Put("brief", "title", "Reading room at last")})
	require.NoError(t, err)
	assert.Contains(t, client.get(path).body, "Reading room at last", "it shows the job as it is now")

	all := client.get(owner.clientLink("reading", url.Values{"measures": {"yes"}, "crew": {"yes"}})).doc(t)
	assert.Equal(t, "Your balloons", all.Find("h1").Text())
	assert.Contains(t, all.Find(".clientpieces").Text(), " wide")
	assert.Contains(t, all.Find("main").Text(), "Made by ")

}

// To whoever has no link that opens, it is the same whether it ended, expired or never was.
func TestAClientsLinkEnds(t *testing.T) {
	s := newSite(t)
	owner := s.owner()
	helper, _ := s.helper(owner)
	client := s.stranger()
	path := owner.clientLink("reading", url.Values{"title": {"yes"}})
	require.Equal(t, 200, client.get(path).StatusCode)
	never := client.get("/look/abcdefghijklmnopqrstuvwxyz")
	assert.Equal(t, 404, never.StatusCode)
	assert.Equal(t, 404, client.get("/look/").StatusCode)
	assert.Contains(t, []int{401, 404}, helper.post("/jobs/reading/share/look", url.Values{}).StatusCode)
	owner.endClientLinks("reading")
	same := func(got answer, why string) {
		assert.Equal(t, never.StatusCode, got.StatusCode, why)
		assert.Equal(t, never.body, got.body, why)
		never.Header.Del("Date")
		got.Header.Del("Date")
		assert.Equal(t, never.Header, got.Header, why)
	}
	same(client.get(path), "ended")
	path = owner.clientLink("reading", url.Values{})
	s.later(30 * 24 * time.Hour)
	assert.Equal(t, 200, client.get(path).StatusCode, "the last day, 30 days after the event")
	s.later(24 * time.Hour)
	same(client.get(path), "expired")
	path = owner.clientLink("other", url.Values{})
	require.Equal(t, 200, client.get(path).StatusCode)
	require.Equal(t, 303, owner.post("/jobs/other/delete", url.Values{}).StatusCode)
	same(client.get(path), "deleted")
	assert.NotContains(t, s.log.String(), strings.TrimPrefix(path, "/look/"), "the token is in no log")
	assert.Contains(t, s.log.String(), "path=/look/*")
}

// secretJob has a word of its own wherever a client's page must not look.
const secretJob = `{"garlandry":1,
"brief":{"title":"qtitle","date":"2027-05-08","venue":"qvenue","in":"2027-05-08T08:30","doors":"2027-05-08T11:00",
"parking":"qparking","allergy":"qallergy","children":"qchildren","notes":"qnotes","units":"metric"},
"contact":{"name":"qcontact","phone":"qphone","email":"qemail@example.org","agreed":"qagreed"},
"colours":[{"id":"qcolourid","name":"Coral","value":"#e5604d","sizes":[5,11,18]}],
"crew":[{"id":"qmemberid","name":"Qines Qsurname","skill":"beginner"}],
"kit":[{"id":"qkitid","kind":"ladder","name":"qladder","notes":"qkitnotes"}],
"pieces":[{"id":"qpieceid","name":"Door garland","kind":"garland","line":"typed","length_mm":3000,"recipe":"2x11@10",
"notes":"qpiecenotes","colours":[{"colour":"qcolourid","weight":1}]},
{"id":"qtableid","name":"Tables","kind":"tables","count":2,"each":5,"size_in":11,"to_in":10,
"colours":[{"colour":"qcolourid","weight":1}]}],
"added":[{"id":"qaddedid","list":"pack","text":"qadded"}]}`

// Not a byte of what only the crew knows is on the page.
func TestAClientSeesNothingElse(t *testing.T) {
	s := newSite(t)
	owner := s.owner()
	changes, err := job.DecodeFile([]byte(secretJob))
	require.NoError(t, err)
	_, err = s.store.CreateJob(context.Background(), s.store.System("test"), "qjobid", changes)
	require.NoError(t, err)
	_, err = s.store.Write(context.Background(), s.store.System("test"), "qjobid", []job.Change{
		job.Put("card/make/qpieceid", "taken", "qtaker"),
		job.Put("own/prices/latex/11", "bags", "100 for 77.77")})
	require.NoError(t, err)
	require.Equal(t, 303, owner.post("/jobs/qjobid/do",
		url.Values{"act": {"note"}, "e": {"card/make/qpieceid"}, "text": {"qcardnote"}}).StatusCode)
	shown := owner.get("/jobs/qjobid/brief").body + owner.get("/jobs/qjobid/cards/make/qpieceid").body +
		owner.get("/jobs/qjobid/shop").body
	for _, word := range []string{"qtitle", "qvenue", "qcontact", "qemail", "qnotes", "qcardnote", "qtaker", "77.77"} {
		require.Contains(t, shown, word, "the job must hold it, or the test below could not fail")
	}
	none := s.stranger().get(owner.clientLink("qjobid", url.Values{}))
	require.Equal(t, 200, none.StatusCode)
	assert.Contains(t, none.body, "Door garland")
	lower := strings.ToLower(none.body)
	for _, word := range strings.FieldsFunc(strings.ToLower(secretJob+" qcardnote qtaker qjobid"), func(r rune) bool {
		return (r < 'a' || r > 'z') && r != '_'
	}) {
		if strings.HasPrefix(word, "q") {
			assert.NotContains(t, lower, word)
		}
	}
	for _, more := range []string{"77.77", "100 for", " wide", "Dora"} {
		assert.NotContains(t, none.body, more)
	}
	chosen := s.stranger().get(owner.clientLink("qjobid", url.Values{"title": {"yes"}, "crew": {"yes"}})).body
	assert.Contains(t, chosen, "qtitle")
	assert.Contains(t, chosen, "Made by Qines<")
	assert.NotContains(t, chosen, "Qsurname")
}

// Whoever tries links that open nothing has to wait, like whoever tries to join by them. Clients are not slowed.
func TestTriesOfClientsLinksAreLimited(t *testing.T) {
	s := newSite(t)
	path := s.owner().clientLink("reading", url.Values{})
	client := s.stranger()
	for range 20 { // more than the tries that are allowed
		require.Equal(t, 200, client.get(path).StatusCode)
	}
	for range 15 {
		require.Equal(t, 404, client.get("/look/abcdefghijklmnopqrstuvwxyz").StatusCode)
	}
	got := client.get("/look/abcdefghijklmnopqrstuvwxyz")
	assert.Equal(t, 429, got.StatusCode)
	assert.Zero(t, got.doc(t).Find("script").Length())
	assert.Equal(t, 429, client.get(path).StatusCode, "or a guess could still be right")
	s.later(2 * time.Second)
	assert.Equal(t, 200, client.get(path).StatusCode)
}

// The form for a client's link says at the field what is wrong, and keeps what was ticked.
func TestAClientsLinkEndsOnADay(t *testing.T) {
	s := newSite(t)
	owner := s.owner()
	for _, day := range []string{"tomorrow", "2027-05-01", "2031-01-01"} {
		got := owner.post("/jobs/reading/share/look", url.Values{"measures": {"yes"}, "client.ends": {day}})
		require.Equal(t, 422, got.StatusCode, day)
		doc := got.doc(t)
		assert.Equal(t, 1, doc.Find("#share-client .wrong").Length(), day)
		assert.Equal(t, 1, doc.Find("#client-measures[checked]").Length(), day)
		assert.Zero(t, doc.Find("#client-title[checked]").Length(), day)
	}
	assert.Equal(t, 1, owner.get("/jobs/reading/share").doc(t).Find("#client-title[checked]").Length())
	path := owner.clientLink("reading", url.Values{"client.ends": {"2027-05-10"}})
	s.later(2 * 24 * time.Hour)
	assert.Equal(t, 200, s.stranger().get(path).StatusCode)
	s.later(24 * time.Hour)
	assert.Equal(t, 404, s.stranger().get(path).StatusCode)
}
