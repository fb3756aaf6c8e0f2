package serve_test

import (
	"encoding/json"
	"fmt"
	"io"
	"net/url"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	wire "garlandry/app/sync"
)

const (
	formType = "application/x-www-form-urlencoded"
	jsonType = "application/json"
	syncPath = "/api/v1/jobs/reading/sync"
)

// hostileRequest is a bad request and its expected status.
type hostileRequest struct {
	name         string
	who          *phone
	method, path string
	kind, body   string
	want         int
}

// endless is JSON that is nested too deep to be read.
var endless = strings.Repeat("[", 100000)

// action encodes the form of a button.
func action(act, entity, n string) string {
	return url.Values{"act": {act}, "e": {entity}, "n": {n}}.Encode()
}

// hostileExchanges lists bad sync requests and bad addresses.
func hostileExchanges(owner, helper, stranger *phone) []hostileRequest {
	return []hostileRequest{
		{"sync cut off", owner, "POST", syncPath, jsonType, `{"v":1,"d":"phone1","ops":[{"i":"a`, 400},
		{"sync of nothing", owner, "POST", syncPath, jsonType, "", 400},
		{"sync of null", owner, "POST", syncPath, jsonType, "null", 400},
		{"sync of a list", owner, "POST", syncPath, jsonType, "[]", 400},
		{"sync nested too deep", owner, "POST", syncPath, jsonType, `{"v":1,"d":"phone1","ops":` + endless, 400},
		{"sync of bytes", owner, "POST", syncPath, jsonType, "\x00\xff\xfe", 400},
		{"sync of a number too large", owner, "POST", syncPath, jsonType, `{"v":1,"d":"phone1","now":1e999}`, 400},
		{"sync of a negative cursor", owner, "POST", syncPath, jsonType, `{"v":1,"d":"phone1","cur":{"s":-1}}`, 400},
		{"sync without a device", owner, "POST", syncPath, jsonType, `{"v":1}`, 400},
		{"sync of a hostile device", owner, "POST", syncPath, jsonType, `{"v":1,"d":"../../etc"}`, 400},
		{"sync without a version", owner, "POST", syncPath, jsonType, `{"d":"phone1"}`, 400},
		{"sync too new", owner, "POST", syncPath, jsonType, `{"v":99,"d":"phone1"}`, 426},
		{"sync too large", owner, "POST", syncPath, jsonType, `{"v":1,"d":"` + strings.Repeat("x", wire.MaxBytes) + `"}`,
			413},
		{"sync of too many", owner, "POST", syncPath, jsonType,
			`{"v":1,"d":"phone1","ops":[` + strings.TrimSuffix(strings.Repeat("{},", 501), ",") + `]}`, 413},
		{"sync of an unknown job by a helper", helper, "POST", "/api/v1/jobs/nowhere/sync", jsonType,
			`{"v":1,"d":"phone1"}`, 404},
		{"sync of a hostile job", owner, "POST", "/api/v1/jobs/%2e%2e%2f%00/sync", jsonType, `{"v":1,"d":"phone1"}`, 400},
		{"sync by a stranger", stranger, "POST", syncPath, jsonType, `{"v":1,"d":"phone1"}`, 401},
		{"sync by get", owner, "GET", syncPath, "", "", 404},
		{"no such api", owner, "GET", "/api/v1/nothing", "", "", 404},
		{"no such job", owner, "GET", "/jobs/nowhere", "", "", 404},
		{"no such share", owner, "GET", "/jobs/nowhere/share", "", "", 404},
		{"a link to an unknown job", owner, "POST", "/jobs/nowhere/share/new", formType, "name=Bea&role=helper", 404},
		{"events of an unknown job", helper, "GET", "/api/v1/jobs/nowhere/events", "", "", 404},
		{"a job named by a zero byte", owner, "GET", "/jobs/%00", "", "", 404},
		{"a job named by dots", owner, "GET", "/jobs/..%2f..%2fetc", "", "", 404},
		{"a job with a very long id", owner, "GET", "/jobs/" + strings.Repeat("x", 5000), "", "", 404},
		{"no such method", owner, "DELETE", "/jobs/reading", "", "", 405},
	}
}

// hostileActs lists bad joins, imports and buttons.
func hostileActs(owner, helper, stranger *phone) []hostileRequest {
	return []hostileRequest{
		{"join too large", stranger, "POST", "/j", formType, "token=" + strings.Repeat("x", 5000), 413},
		{"join of nothing", stranger, "POST", "/j", formType, "", 400},
		{"join by an unknown token", stranger, "POST", "/j", formType, "token=%00%ff", 404},
		{"join with a long name", stranger, "POST", "/j", formType, "token=x&name=" + strings.Repeat("x", 61), 400},
		{"join by a broken form", stranger, "POST", "/j", formType, "token=%zz", 400},
		{"import too large", owner, "POST", "/import", formType, "text=" + strings.Repeat("x", 5<<20), 413},
		{"import by a helper", helper, "POST", "/import", formType, "text=%7B%7D", 403},
		{"import of nothing", owner, "POST", "/import", formType, "", 422},
		{"import nested too deep", owner, "POST", "/import", formType, "text=" + endless, 422},
		{"multipart without a boundary", owner, "POST", "/import", "multipart/form-data", "x", 400},
		{"multipart cut off", owner, "POST", "/import", "multipart/form-data; boundary=b",
			"--b\r\nContent-Disposition: form-data; name=\"text\"\r\n\r\nx", 400},
		{"a broken form", owner, "POST", "/jobs/reading/do", formType, "act=%zz", 400},
		{"no act", owner, "POST", "/jobs/reading/do", formType, "", 422},
		{"an unknown act", owner, "POST", "/jobs/reading/do", formType, action("explode", "card/load", "1"), 422},
		{"an act without an entity", owner, "POST", "/jobs/reading/do", formType, action("tick", "", ""), 422},
		{"an act on no card", owner, "POST", "/jobs/reading/do", formType, action("tick", "own/contact", ""), 422},
		{"an act on an entity with a very long id", owner, "POST", "/jobs/reading/do", formType,
			action("tick", "card/"+strings.Repeat("x", 9000), ""), 422},
		{"a negative count", owner, "POST", "/jobs/reading/do", formType, action("count", "card/load", "-5"), 422},
		{"a huge addition", owner, "POST", "/jobs/reading/do", formType, action("add", "card/load", "1e300"), 422},
		{"an addition beyond int", owner, "POST", "/jobs/reading/do", formType,
			action("add", "card/load", "99999999999999999999"), 422},
		{"an addition of NaN", owner, "POST", "/jobs/reading/do", formType, action("add", "card/load", "NaN"), 422},
		{"a negative packing", owner, "POST", "/jobs/reading/do", formType, action("pack", "pack/x", "-1"), 422},
		{"undoing an unknown operation", owner, "POST", "/jobs/reading/do", formType, "act=undo&e=card%2Fload&op=%00", 422},
		{"a helper restoring a piece", helper, "POST", "/jobs/reading/do", formType, action("restore", "piece/door", ""),
			422},
	}
}

// hostileForms lists bad forms of jobs, pieces and links.
func hostileForms(owner, helper, stranger *phone) []hostileRequest {
	return []hostileRequest{
		{"a tick by a stranger", stranger, "POST", "/jobs/reading/do", formType, action("tick", "card/load", ""), 401},
		{"a tick in an unknown job", owner, "POST", "/jobs/nowhere/do", formType, action("tick", "card/load", ""), 404},
		{"doors before in", owner, "POST", "/jobs/reading/brief", formType,
			"title=x&in=2027-05-08T07:00&doors=2027-05-08T06:00", 422},
		{"a venue below absolute zero", owner, "POST", "/jobs/reading/brief", formType, "title=x&venue_c=-400",
			422},
		{"a brief by a helper", helper, "POST", "/jobs/reading/brief", formType, "title=x", 403},
		{"a garland of 10 km", owner, "POST", "/jobs/reading/pieces/new", formType, "kind=garland&name=Long&length_mm=10+km",
			422},
		{"a garland of negative length", owner, "POST", "/jobs/reading/pieces/new", formType,
			"kind=garland&name=Long&length_mm=-3+m", 422},
		{"a piece of an unknown kind", owner, "POST", "/jobs/reading/pieces/new", formType, "kind=rocket&name=x", 422},
		{"a new job on no day", owner, "POST", "/new", formType, "title=x&date=soon", 422},
		{"a link without a name", owner, "POST", "/jobs/reading/share/new", formType, "role=helper", 422},
		{"a link for an owner", owner, "POST", "/jobs/reading/share/new", formType, "name=Bea&role=owner", 422},
		{"a link that has ended", owner, "POST", "/jobs/reading/share/new", formType, "name=Bea&role=helper&ends=2020-01-01",
			422},
		{"a link with a bad end", owner, "POST", "/jobs/reading/share/new", formType, "name=Bea&role=helper&ends=soon", 422},
		{"a link by a helper", helper, "POST", "/jobs/reading/share/new", formType, "name=Bea&role=helper", 404},
		{"a link too large", owner, "POST", "/jobs/reading/share/new", formType, "name=" + strings.Repeat("x", 5000), 413},
		{"an owner's invite by a helper", helper, "POST", "/jobs/reading/share/owner", formType, "", 404},
		{"a copy by a helper", helper, "POST", "/jobs/reading/copy", formType, "", 403},
		{"a post to a page", owner, "POST", "/jobs/reading/cards", formType, "", 405},
		{"a post to an unknown page", owner, "POST", "/nowhere", formType, "", 404},
	}
}

// TestHostileRequests checks that every bad request gets its status and writes nothing.
func TestHostileRequests(t *testing.T) {
	s := newSite(t)
	owner := s.owner()
	helper, _ := s.helper(owner)
	stranger := s.stranger()
	cases := slices.Concat(hostileExchanges(owner, helper, stranger), hostileActs(owner, helper, stranger),
		hostileForms(owner, helper, stranger))
	before := s.standing()
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			cookie := c.who.cookie
			r := c.who.request(c.method, c.path, strings.NewReader(c.body))
			if c.kind != "" {
				r.Header.Set("Content-Type", c.kind)
			}
			if c.who == stranger {
				s.later(2 * time.Second) // keeps the join limits from hiding the expected status
			}
			got := c.who.send(r)
			assert.Equal(t, c.want, got.StatusCode, "%.300s", got.body)
			assert.Equal(t, cookie, c.who.cookie, "nobody must be signed in")
			if strings.HasPrefix(c.path, "/api/") {
				var failure struct{ Code, Message string }
				require.NoError(t, json.Unmarshal([]byte(got.body), &failure))
				assert.NotEmpty(t, failure.Code)
				assert.NotEmpty(t, failure.Message)
			}
			now := s.standing()
			assert.True(t, before == now, "something was written")
		})
	}
	assert.NotContains(t, s.log.String(), "panic")
}

// TestLargeBodiesOfUnknownLength checks that a body without a declared length has the same limits.
func TestLargeBodiesOfUnknownLength(t *testing.T) {
	s := newSite(t)
	owner := s.owner()
	before := s.standing()
	for path, size := range map[string]int{"/j": 4 << 10, "/jobs/reading/share/new": 4 << 10,
		"/jobs/reading/share/end": 4 << 10, "/jobs/reading/share/keep": 4 << 10, "/import": 5 << 20,
		syncPath: wire.MaxBytes} {
		r := owner.request("POST", path,
			io.MultiReader(strings.NewReader("token=x&name="), strings.NewReader(strings.Repeat("x", size))))
		require.LessOrEqual(t, r.ContentLength, int64(0))
		r.Header.Set("Content-Type", formType)
		if path == syncPath {
			r.Header.Set("Content-Type", jsonType)
		}
		assert.Equal(t, 413, owner.send(r).StatusCode, path)
	}
	assert.True(t, before == s.standing(), "something was written")
}

// TestTokensAreReadOnlyFromTheBody checks that a token in the address is ignored, because histories and proxies record
// addresses.
func TestTokensAreReadOnlyFromTheBody(t *testing.T) {
	s := newSite(t)
	owner := s.owner()
	link := owner.link(url.Values{"name": {"Ines"}, "role": {"helper"}})
	p := s.stranger()
	assert.Equal(t, 400, p.post("/j?token="+url.QueryEscape(link), nil).StatusCode)
	assert.Nil(t, p.cookie)
	assert.Equal(t, 303, p.post("/j", url.Values{"code": {s.http.URL + "/j#" + link}}).StatusCode,
		"the whole link may be pasted")
}

// TestBadJobFilesAreRefused checks that bad job files are refused, that the typed text stays, and that nothing is
// written.
func TestBadJobFilesAreRefused(t *testing.T) {
	s := newSite(t)
	owner := s.owner()
	files, err := filepath.Glob(filepath.Join("..", "..", "testdata", "jobs", "bad", "*.json"))
	require.NoError(t, err)
	require.NotEmpty(t, files)
	before := s.standing()
	for _, name := range files {
		t.Run(filepath.Base(name), func(t *testing.T) {
			data, err := os.ReadFile(name)
			require.NoError(t, err)
			got := owner.post("/import", url.Values{"text": {string(data)}})
			assert.Equal(t, 422, got.StatusCode, "%.300s", got.body)
			assert.Equal(t, strings.TrimSpace(string(data)), strings.TrimSpace(got.doc(t).Find(`textarea[name="text"]`).Text()),
				"the text must stay")
			var b strings.Builder
			fmt.Fprintf(&b,
				"--b\r\nContent-Disposition: form-data; name=\"file\"; filename=\"job.json\"\r\n\r\n%s\r\n--b--\r\n", data)
			r := owner.request("POST", "/import", strings.NewReader(b.String()))
			r.Header.Set("Content-Type", "multipart/form-data; boundary=b")
			assert.Equal(t, 422, owner.send(r).StatusCode, "as a file")
			assert.True(t, before == s.standing(), "something was written")
		})
	}
}
