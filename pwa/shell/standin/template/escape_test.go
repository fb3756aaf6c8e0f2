package template_test

import (
	real "html/template"
	"testing"

	"garlandry/pwa/shell/standin/template"

	"github.com/stretchr/testify/assert"
)

func FuzzEscapesAsTheRealOne(f *testing.F) {
	for _, text := range []string{"", "Reading room", `<b title="x">`, "Tomasz's & Bea's", "a\x00b", "\xff<", "ä<ö"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		assert.Equal(t, real.HTMLEscapeString(text), template.HTMLEscapeString(text))
	})
}
