package fmt_test

import (
	"errors"
	real "fmt"
	"math"
	"strconv"
	"strings"
	"testing"

	"garlandry/pwa/shell/standin/fmt"
)

func FuzzVerbPrintsAsTheRealOne(f *testing.F) {
	for i := range supported {
		f.Add(uint8(i*7), int16(i), int16(i-1), uint8(i), int64(-i), uint64(i)<<60, "ä"+supported[:i])
	}
	f.Add(uint8(0), int16(0), int16(0), uint8(3), int64(math.MinInt64), math.Float64bits(math.Copysign(0, -1)), "\xff")
	f.Fuzz(func(t *testing.T, flags uint8, width, precision int16, verb uint8, n int64, bits uint64, text string) {
		var set, size string
		for i, flag := range "-+# 0" {
			if flags&(1<<i) != 0 {
				set += string(flag)
			}
		}
		if width > 0 {
			size = strconv.Itoa(int(width))
		}
		if precision >= 0 {
			size += "." + strconv.Itoa(int(precision))
		}
		v := rune(supported[int(verb)%len(supported)])
		for kind, values := range map[string][]any{
			"bool":     {n > 0, truth(n < 0)},
			"int":      {n, int(n), int8(n), rune(n), whole(n)},
			"uint":     {bits, uint8(bits), uint32(bits), natural(bits)},
			"float":    {math.Float64frombits(bits), math.Float32frombits(uint32(bits)), part(n)},
			"string":   {text, words(text)},
			"bytes":    {[]byte(text), raw(text)},
			"list":     {[]string{text, ""}, []int64{n, 0}, []any{text, n, nil}},
			"error":    {errors.New(text)},
			"stringer": {card{text}},
			"nil":      {nil},
		} {
			for _, value := range values {
				if !agreed(kind, set, v) || hidden(value, v) {
					continue
				}
				format := "%" + set + size + string(v)
				if want, got := real.Sprintf(format, value), fmt.Sprintf(format, value); want != got {
					t.Fatalf("%q of %T %#v\nwant %q\ngot  %q", format, value, value, want, got)
				}
			}
		}
	})
}

func FuzzFormatReadsAsTheRealOne(f *testing.F) {
	for _, format := range []string{"%d of %s, %g", "%", "%%", "%5.", "%-+ 09.4v|%z", "ä%\xff", "%w%w%w%w", "%1000001d", "%.1000001d"} {
		f.Add(format, 3, 2.5, "Ines")
	}
	f.Fuzz(func(t *testing.T, format string, n int, x float64, text string) {
		if strings.ContainsAny(format, "*[#boOpFq") {
			return
		}
		for _, args := range [][]any{nil, {n}, {text, n, x}, {x, text, errorOf(text), n > 0}} {
			if want, got := real.Sprintf(format, args...), fmt.Sprintf(format, args...); want != got {
				t.Fatalf("%q\nwant %q\ngot  %q", format, want, got)
			}
			want, got := real.Errorf(format, args...), fmt.Errorf(format, args...)
			if errors.Unwrap(want) != errors.Unwrap(got) || want.Error() != got.Error() {
				t.Fatalf("%q\nwant %q\ngot  %q", format, want, got)
			}
		}
	})
}

type errorOf string

func (e errorOf) Error() string { return string(e) }
