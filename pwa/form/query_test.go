package form_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"garlandry/pwa/form"
)

func TestQuery(t *testing.T) {
	tests := []struct {
		name, query string
		want        form.Values
		err         error
	}{
		{"empty", "", form.Values{}, nil},
		{"escapes", "length=10+ft&recipe=2x11%4010", form.Values{"length": {"10 ft"}, "recipe": {"2x11@10"}}, nil},
		{"twice", "a=b&a=c", form.Values{"a": {"b", "c"}}, nil},
		{"semicolon", "a=1&b=1;c=2", nil, form.ErrQuery},
		{"broken escape", "a=1&b=%zz", nil, form.ErrQuery},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			got, err := form.ParseQuery(test.query)
			assert.ErrorIs(t, err, test.err)
			assert.Equal(t, test.want, got)
			if err == nil {
				assert.Equal(t, test.query, got.Query())
			}
		})
	}
}

func TestParsePath(t *testing.T) {
	path, err := form.ParsePath("/jobs/%C3%A4+b")
	assert.NoError(t, err)
	assert.Equal(t, "/jobs/\u00e4+b", path)
	_, err = form.ParsePath("/jobs/%")
	assert.ErrorIs(t, err, form.ErrQuery)
}
