package serve_test

import (
	"net/url"
	"strings"
	"testing"

	"garlandry/app/job"
	wire "garlandry/app/sync"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestTheOwnerSetsAside checks that the owner sees unusual operations, sets them aside with a reason and puts them
// back, and that nobody else may.
func TestTheOwnerSetsAside(t *testing.T) {
	s := newSite(t)
	owner := s.owner()
	helper, _ := s.helper(owner)
	const at = "/jobs/reading/share/aside"
	assert.Contains(t, owner.get("/jobs/reading/share").body, at)
	assert.Contains(t, owner.get(at).body, "Nothing unusual")
	wave := s.op(1, "card/load", "", `"<script>\u202e"`)
	wave.Kind = "wave"
	answer := helper.exchange("reading", wave)
	require.Equal(t, wire.Denied, answer.Acks[0].Result, "only the owner may send an unknown kind")
	assert.Contains(t, answer.Acks[0].Why, "only the owner")
	require.Equal(t, wire.OK, owner.exchange("reading", wave).Acks[0].Result)

	row := owner.get(at).doc(t).Find("#aside-list li")
	require.Equal(t, 1, row.Length())
	assert.Contains(t, row.Text(), "wave card/load")
	assert.Contains(t, row.Text(), "perhaps from a newer app")
	require.Equal(t, 303, owner.post(at, url.Values{"op": {wave.ID}, "why": {"spoils the day"}}).StatusCode)
	row = owner.get(at).doc(t).Find("#aside-list li")
	assert.Contains(t, row.Text(), "Set aside by ")
	assert.Contains(t, row.Text(), "spoils the day")
	assert.NotContains(t, owner.get("/jobs/reading").body, "made by a newer version")
	sent := helper.exchange("reading").Recs
	kinds := map[string]job.Kind{}
	for _, r := range sent {
		kinds[r.ID] = r.Kind
	}
	assert.Equal(t, job.Emptied, kinds[wave.ID])
	require.Equal(t, 303, owner.post(at, url.Values{"op": {wave.ID}, "act": {"back"}}).StatusCode)
	assert.Contains(t, owner.get(at).doc(t).Find("#aside-list li").Text(), "Brought back by ")

	before := s.standing()
	assert.Equal(t, 422, owner.post(at, url.Values{"op": {wave.ID}, "why": {strings.Repeat("x", 500)}}).StatusCode)
	assert.Equal(t, 404, owner.post(at, url.Values{"op": {"nosuchoperation"}}).StatusCode)
	assert.Equal(t, 404, owner.get("/jobs/nosuch/share/aside").StatusCode)
	for name, other := range map[string]*phone{"a helper": helper, "a stranger": s.stranger()} {
		assert.GreaterOrEqual(t, other.get(at).StatusCode, 400, name)
		assert.GreaterOrEqual(t, other.post(at, url.Values{"op": {wave.ID}}).StatusCode, 400, name)
	}
	assert.Equal(t, before, s.standing(), "nothing was changed")
}

// TestBodiesThatCouldStopAPhone checks that a body nested too deep anywhere is refused before any of it is stored.
func TestBodiesThatCouldStopAPhone(t *testing.T) {
	s := newSite(t)
	owner := s.owner()
	deep := strings.Repeat("[", 9000) + strings.Repeat("]", 9000)
	before := s.standing()
	for name, body := range map[string]string{
		"a deep value": `{"v":1,"d":"a","ops":[{"i":"operation1","d":"a","n":1,"ver":1,"k":"wave","e":"card/x","v":` +
			deep + `}]}`,
		"an unknown field": `{"v":1,"d":"a","later":` + deep + `}`,
		"a record to heal": `{"v":1,"d":"a","heal":[{"i":"operation1","d":"a","n":1,"k":"wave","e":"card/x","v":` +
			deep + `}]}`,
		"a huge number":         `{"v":1,"d":"a","now":` + strings.Repeat("9", 400) + `}`,
		"an absurdly long text": `{"v":1,"d":"a","app":"` + strings.Repeat("x", 200<<10) + `"}`,
		"a long app":            `{"v":1,"d":"a","app":"` + strings.Repeat("x", 5000) + `"}`,
		"half a character":      `{"v":1,"d":"a","app":"\ud800"}`,
		"no UTF-8":              "{\"v\":1,\"d\":\"a\",\"app\":\"\xff\"}",
	} {
		assert.Equal(t, 400, owner.sync("/api/v1/jobs/reading/sync", body).StatusCode, name)
	}
	assert.Equal(t, before, s.standing())
}
