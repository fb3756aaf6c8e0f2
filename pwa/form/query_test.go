package form_test

import (
	"net/url"
	"testing"

	"garlandry/pwa/form"

	"github.com/stretchr/testify/assert"
)

// FuzzQueriesReadAsInNetURL holds our reader and writer to the standard library's.
func FuzzQueriesReadAsInNetURL(f *testing.F) {
	for _, text := range []string{"", "a=b&a=c", "length=10+ft&recipe=2x11%4010", "a;b=c", "%zz", "%", "a=%4",
		"&&a&=b", "name=%C3%A4%00", "a=b=c"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		want, wantErr := url.ParseQuery(text)
		got, err := form.ParseQuery(text)
		if wantErr != nil {
			assert.ErrorIs(t, err, form.ErrQuery)
		} else if assert.NoError(t, err) {
			assert.Equal(t, map[string][]string(want), map[string][]string(got))
			assert.Equal(t, want.Encode(), got.Query())
		}
		wantPath, wantErr := url.PathUnescape(text)
		gotPath, err := form.ParsePath(text)
		assert.Equal(t, wantPath, gotPath)
		assert.Equal(t, wantErr == nil, err == nil)
	})
}
