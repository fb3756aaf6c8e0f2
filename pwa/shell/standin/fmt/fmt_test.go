package fmt_test

import (
	"errors"
	real "fmt"
	"io"
	"strings"
	"testing"

	"garlandry/pwa/shell/standin/fmt"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// supported holds the verbs that the stand-in knows for a kind of value; a verb of the others prints what does not suit,
// as the real one does, but for those that only the real one knows.
const supported = "vsqdxXctUeEfgGwTz"

// agreed leaves out what the stand-in's package comment says it passes over.
func agreed(kind, flags string, verb rune) bool {
	sharp := strings.Contains(flags, "#")
	switch {
	case sharp && (verb == 'v' || verb == 'w' || verb == 'q'):
		return false
	case kind == "float" || kind == "list":
		return !sharp && verb != 'q'
	case kind == "int" || kind == "uint" || kind == "stringer" || kind == "bytes":
		return verb != 'q' || kind == "bytes"
	}
	return true
}

func TestEveryVerbPrintsEveryKindAsTheRealOne(t *testing.T) {
	for kind, values := range samples {
		t.Run(kind, func(t *testing.T) {
			for _, verb := range supported {
				for _, flags := range []string{"", "-", "+", " ", "0", "#", "+0", "-0", "# "} {
					for _, size := range []string{"", "1", "9", "24", ".0", ".3", "9.3", "12.", "."} {
						if !agreed(kind, flags, verb) {
							continue
						}
						format := "%" + flags + size + string(verb) + "|"
						for i, value := range values {
							if hidden(value, verb) {
								continue
							}
							assert.Equal(t, real.Sprintf(format, value), fmt.Sprintf(format, value), "%s of value %d", format, i)
						}
					}
				}
			}
		})
	}
}

// hidden says that a value without words of its own for a verb is one that the stand-in does not look into.
func hidden(value any, verb rune) bool {
	switch value.(type) {
	case card, *card, clumsy, *fault:
		return !strings.ContainsRune("vsxXqT", verb)
	}
	if _, list := value.([]error); list {
		return !strings.ContainsRune("vsxXqT", verb)
	}
	_, isError := value.(error)
	return isError && !strings.ContainsRune("vsxXqT", verb)
}

func TestFormatsThatAreWrong(t *testing.T) {
	for name, row := range map[string]struct {
		format string
		args   []any
	}{
		"no verb":                      {"100%", nil},
		"flags and no verb":            {"%-08", []any{1}},
		"width, point and no verb":     {"%8.", []any{1}},
		"argument missing":             {"%d of %d", []any{1}},
		"argument left over":           {"%d", []any{1, "two", nil, 3.5}},
		"no verb at all":               {"plain", []any{io.EOF}},
		"unknown verb":                 {"%z %!", []any{1, 2}},
		"verb that is no text":         {"%\xff", []any{1}},
		"wrap outside an error":        {"%w", []any{errorOf("sand")}},
		"width beyond reason":          {"%99999999d", []any{1}},
		"percent with width":           {"%9%|%-5%", nil},
		"text behind":                  {"%s, then ä", []any{"a"}},
		"nil pointer to a named error": {"%v|%s|%5v", []any{(*fault)(nil), (*fault)(nil), (*fault)(nil)}},
		"nil pointer without words":    {"%v|%5v", []any{(*int)(nil), (*int)(nil)}},
	} {
		t.Run(name, func(t *testing.T) {
			assert.Equal(t, real.Sprintf(row.format, row.args...), fmt.Sprintf(row.format, row.args...))
		})
	}
}

func TestSprintPutsSpacesAsTheRealOne(t *testing.T) {
	var all []any
	for _, kind := range []string{"bool", "int", "uint", "float", "string", "error", "stringer", "bytes", "list", "nil"} {
		for _, value := range samples[kind] {
			all = append(all, value)
			assert.Equal(t, real.Sprint(value), fmt.Sprint(value))
			for _, other := range []any{1, "a", nil, io.EOF, words("b")} {
				assert.Equal(t, real.Sprint(value, other, value), fmt.Sprint(value, other, value))
			}
		}
	}
	assert.Equal(t, real.Sprint(all...), fmt.Sprint(all...))
	assert.Equal(t, real.Sprint(), fmt.Sprint())
}

type fullDisk struct{}

func (fullDisk) Write([]byte) (int, error) { return 2, io.ErrShortWrite }

func TestFprintfReportsTheWriter(t *testing.T) {
	var ours, theirs strings.Builder
	n, err := fmt.Fprintf(&ours, "%d → %q", 3, "sand")
	m, realErr := real.Fprintf(&theirs, "%d → %q", 3, "sand")
	require.NoError(t, err)
	require.NoError(t, realErr)
	assert.Equal(t, m, n)
	assert.Equal(t, theirs.String(), ours.String())
	n, err = fmt.Fprintf(fullDisk{}, "abc")
	assert.Equal(t, 2, n)
	assert.ErrorIs(t, err, io.ErrShortWrite)
}

func TestErrorfWrapsAsTheRealOne(t *testing.T) {
	deep := real.Errorf("deep: %w", &fault{7})
	for name, row := range map[string]struct {
		format string
		args   []any
	}{
		"nothing":                   {"plain", nil},
		"text":                      {"open %q: %v", []any{"job", io.EOF}},
		"one":                       {"open: %w", []any{io.EOF}},
		"one with width":            {"open: %20w|%-9.2w", []any{io.EOF, deep}},
		"one that wraps":            {"%w, so %d", []any{deep, 4}},
		"two":                       {"%w: %w", []any{io.ErrUnexpectedEOF, deep}},
		"the same twice":            {"%w: %w", []any{io.EOF, io.EOF}},
		"two, one of them no error": {"%w: %w", []any{"sand", deep}},
		"no error":                  {"%w", []any{5}},
		"nil":                       {"%w", []any{nil}},
		"two nils":                  {"%w %w", []any{nil, nil}},
		"missing":                   {"%w", nil},
		"left over":                 {"%w", []any{io.EOF, deep}},
		"nil pointer":               {"%w", []any{(*fault)(nil)}},
		"list of errors":            {"%w", []any{[]int{1}}},
	} {
		t.Run(name, func(t *testing.T) {
			ours, theirs := fmt.Errorf(row.format, row.args...), real.Errorf(row.format, row.args...)
			sameError(t, theirs, ours)
		})
	}
}

func sameError(t *testing.T, want, got error) {
	t.Helper()
	assert.Equal(t, want.Error(), got.Error())
	assert.Equal(t, errors.Unwrap(want), errors.Unwrap(got))
	for _, target := range []error{io.EOF, io.ErrUnexpectedEOF, io.ErrNoProgress} {
		assert.Equal(t, errors.Is(want, target), errors.Is(got, target), target)
	}
	var wantFault, gotFault *fault
	assert.Equal(t, errors.As(want, &wantFault), errors.As(got, &gotFault))
	assert.Same(t, wantFault, gotFault)
	_, wantOne := want.(interface{ Unwrap() error })
	_, gotOne := got.(interface{ Unwrap() error })
	assert.Equal(t, wantOne, gotOne)
	wantAll, wantSeveral := want.(interface{ Unwrap() []error })
	gotAll, gotSeveral := got.(interface{ Unwrap() []error })
	require.Equal(t, wantSeveral, gotSeveral)
	if wantSeveral {
		assert.Equal(t, wantAll.Unwrap(), gotAll.Unwrap())
	}
}
