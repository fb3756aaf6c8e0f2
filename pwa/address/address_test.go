package address_test

import (
	"strings"
	"testing"

	"garlandry/pwa/address"

	"github.com/stretchr/testify/assert"
)

// build returns the path that was read into the address.
func build(a address.Address) string { return a.Page.Path(a.Job, a.Item) }

func TestPath(t *testing.T) {
	tests := []struct {
		path string
		want address.Address
	}{
		{"/", address.Address{Page: address.Home}},
		{"/away", address.Address{Page: address.Archive}},
		{"/calc/cluster", address.Address{Page: address.Calculator, Item: "cluster"}},
		{"/phone/out", address.Address{Page: address.SignOut}},
		{"/j/open", address.Address{Page: address.JoinOpen}},
		{"/dev/gallery/pack", address.Address{Page: address.GalleryPage, Item: "pack"}},
		{"/jobs/J", address.Address{Page: address.Job, Job: "J"}},
		{"/jobs/J/pack", address.Address{Page: address.Pack, Job: "J"}},
		{"/jobs/J/cards", address.Address{Page: address.Cards, Job: "J"}},
		{"/jobs/J/cards/blow/a/11", address.Address{Page: address.Card, Job: "J", Item: "blow/a/11"}},
		{"/jobs/J/change/own/tea", address.Address{Page: address.ChangeCard, Job: "J", Item: "own/tea"}},
		{"/jobs/J/pieces/new", address.Address{Page: address.NewPiece, Job: "J"}},
		{"/jobs/J/pieces/arch-1", address.Address{Page: address.Piece, Job: "J", Item: "arch-1"}},
		{"/jobs/J/pieces/arch-1/layers", address.Address{Page: address.Layers, Job: "J", Item: "arch-1"}},
		{"/jobs/J/share/aside", address.Address{Page: address.Aside, Job: "J"}},
		{"/jobs/J/remove", address.Address{Page: address.RemoveJob, Job: "J"}},
		{"/api/v1/jobs/J/own/sync", address.Address{Page: address.SyncOwn, Job: "J"}},
	}
	for _, test := range tests {
		t.Run(test.path, func(t *testing.T) {
			got, known := address.Parse(test.path)
			assert.True(t, known)
			assert.Equal(t, test.want, got)
			assert.Equal(t, test.path, build(test.want))
		})
	}
}

func TestEveryPageRoundTrips(t *testing.T) {
	for _, p := range address.Pages() {
		t.Run(string(p), func(t *testing.T) {
			parts := []string{"first", "second"}[:strings.Count(strings.ReplaceAll(string(p), "**", "*"), "*")]
			path := p.Path(parts...)
			assert.NotContains(t, path, "*")
			got, known := address.Parse(path)
			assert.True(t, known)
			assert.Equal(t, p, got.Page)
			assert.Equal(t, path, build(got))
			assert.Equal(t, got.Job, address.JobOf(path))
		})
	}
}

func TestParseRefuses(t *testing.T) {
	tests := []struct{ name, path string }{
		{"empty", ""},
		{"no slash first", "jobs/J"},
		{"no job", "/jobs"},
		{"unknown page", "/nowhere"},
		{"unknown page of a job", "/jobs/J/nowhere"},
		{"empty part", "/jobs//pack"},
		{"part too many", "/jobs/J/pack/x"},
		{"no item", "/jobs/J/change"},
		{"too long", "/calc/" + strings.Repeat("x", 400)},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			_, known := address.Parse(test.path)
			assert.False(t, known)
		})
	}
}

func TestRoute(t *testing.T) {
	assert.Equal(t, "/jobs/:job/share/new", address.NewLink.Route())
	assert.Equal(t, "/api/v1/jobs/:job/own/sync", address.SyncOwn.Route())
	assert.Equal(t, "/phone/out", address.SignOut.Route())
	assert.Equal(t, "/jobs/:job/cards/*", address.Card.Route())
}

func TestJobOf(t *testing.T) {
	tests := []struct{ path, want string }{
		{"/jobs/J", "J"}, {"/jobs/J/pack", "J"}, {"/jobs/J/nowhere", "J"}, {"/jobs/", ""}, {"/phone", ""},
		{"/api/v1/jobs/J/sync", "J"}, {"/api/v1/me", ""},
	}
	for _, test := range tests {
		t.Run(test.path, func(t *testing.T) { assert.Equal(t, test.want, address.JobOf(test.path)) })
	}
}

func FuzzParse(f *testing.F) {
	for _, seed := range []string{"/", "/jobs/J/cards/blow/a", "/jobs//x", "/jobs/J/pieces/new", "//", "*", "/jobs/*"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, path string) {
		a, known := address.Parse(path)
		if !known {
			return
		}
		again, known := address.Parse(build(a))
		assert.True(t, known)
		assert.Equal(t, a, again)
		assert.Equal(t, strings.Trim(path, "/"), strings.Trim(build(a), "/"))
	})
}

func FuzzBuild(f *testing.F) {
	f.Add(uint(0), "J", "x")
	f.Add(uint(24), "J", "blow/a/11")
	f.Fuzz(func(t *testing.T, n uint, job, item string) {
		pages := address.Pages()
		want := address.Address{Page: pages[n%uint(len(pages))]}
		if strings.Contains(string(want.Page), "/jobs/*") {
			want.Job = job
		}
		many := strings.HasSuffix(string(want.Page), "/**")
		if many || want.Page == address.Calculator || want.Page == address.Piece || want.Page == address.Layers ||
			want.Page == address.GalleryPage {
			want.Item = item
		}
		for _, part := range []string{job, item} {
			if part == "" || strings.Trim(part, "/") != part || len(part) > 100 || !many && strings.Contains(part, "/") {
				t.Skip("no part of a path")
			}
		}
		if strings.Contains(job, "/") || want.Page == address.Piece && item == "new" {
			t.Skip("read as another page")
		}
		got, known := address.Parse(build(want))
		assert.True(t, known)
		assert.Equal(t, want, got)
	})
}
