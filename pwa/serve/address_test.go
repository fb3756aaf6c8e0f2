package serve_test

import (
	"net/http"
	"net/url"
	"strings"
	"testing"

	"garlandry/pwa/serve"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestLinksNeverLeadToAForeignName checks that links use the app's real address, whatever host a request names: helpers
// trust these links.
func TestLinksNeverLeadToAForeignName(t *testing.T) {
	for _, row := range []struct {
		name, host string
		alter      func(*serve.Config)
		want       string // "": the address of the connection
	}{
		{"a foreign name that resolves to this server", "balloons.evil.example", nil, ""},
		{"a foreign port", "127.0.0.1:1", nil, ""},
		{"this machine, with an address that phones reach", "", func(c *serve.Config) {
			c.Addresses = []string{"http://127.0.0.1:8080", "http://192.0.2.7:8080"}
		}, "http://192.0.2.7:8080"},
		{"this machine alone", "evil.example", func(c *serve.Config) { c.Addresses = []string{"http://127.0.0.1:8080"} },
			"http://127.0.0.1:8080"},
		{"a name of the certificate", "balloons.example:8443", func(c *serve.Config) {
			c.OwnName = func(name string) bool { return name == "balloons.example" }
		}, "http://balloons.example:8443"},
		{"a name not in the certificate", "evil.example", func(c *serve.Config) {
			c.OwnName = func(name string) bool { return name == "balloons.example" }
		}, ""},
	} {
		t.Run(row.name, func(t *testing.T) {
			s := newSite(t, func(c *serve.Config) {
				if row.alter != nil {
					row.alter(c)
				}
			})
			want := row.want
			if want == "" {
				want = s.http.URL
			}
			owner := s.owner()
			for path, form := range map[string]url.Values{"/jobs/reading/share/new": {"name": {"Ines"}, "role": {"helper"}},
				"/jobs/reading/share/owner": {}} {
				r := owner.request(http.MethodPost, path, strings.NewReader(form.Encode()))
				r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
				r.Header.Set("X-Forwarded-Host", "evil.example")
				r.Header.Set("X-Forwarded-Proto", "gopher")
				if row.host != "" {
					r.Host = row.host
				}
				got := owner.send(r)
				require.Equal(t, 200, got.StatusCode, got.body)
				assert.Contains(t, got.body, want+"/j", path)
				assert.NotContains(t, got.body, "evil.example", path)
				assert.NotContains(t, got.body, "gopher", path)
			}
		})
	}
}
