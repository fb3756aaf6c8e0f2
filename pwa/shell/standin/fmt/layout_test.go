package fmt_test

import (
	real "fmt"
	"io"
	"reflect"
	"testing"

	"garlandry/pwa/shell/standin/fmt"

	"github.com/stretchr/testify/assert"
)

// A new compiler may lay types out in another way: then this fails first.
func TestKnowsTheCompilersLayout(t *testing.T) {
	values := []any{new(int), [1]*int{}, map[string]int{}, make(chan int), func() {}, struct{ P *int }{}, struct{ a, b any }{}, card{}, io.EOF, new(any), complex64(1)}
	for _, more := range samples {
		for _, value := range more {
			if value != nil {
				values = append(values, value)
			}
		}
	}
	direct := map[reflect.Type]bool{}
	for _, value := range []any{new(int), [1]*int{}, map[string]int{}, make(chan int), func() {}, struct{ P *int }{}} {
		direct[reflect.TypeOf(value)] = true
	}
	for _, value := range values {
		text, kind, size, held := fmt.Layout(value)
		typ := reflect.TypeOf(value)
		assert.Equal(t, typ.String(), text)
		assert.Equal(t, uint8(typ.Kind()), kind, text)
		assert.Equal(t, typ.Size(), size, text)
		assert.Equal(t, direct[typ] || typ.Kind() == reflect.Pointer, held, text)
	}
}

func TestFindsTheWordsOfValuesHeldInAnyWay(t *testing.T) {
	for _, list := range []any{
		[]*fault{{1}, {2}}, [1]*fault{{3}}, []card{{"a"}, {"b"}}, [2]interface{ Error() string }{io.EOF, &fault{5}}, []fmt.Stringer{card{"c"}, colour(3), &card{"d"}, nil},
		[]struct{ *fault }{{&fault{6}}}, []clumsy{{}, {}},
	} {
		for _, format := range []string{"%v", "%s", "%q", "%9.4v", "%T"} {
			assert.Equal(t, real.Sprintf(format, list), fmt.Sprintf(format, list), format)
		}
	}
}
