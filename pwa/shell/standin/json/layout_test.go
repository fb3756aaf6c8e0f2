package json_test

import (
	"bytes"
	real "encoding/json"
	"fmt"
	"reflect"
	"runtime"
	"strings"
	"testing"

	"garlandry/pwa/shell/standin/json"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A new compiler may lay types out in another way: then this fails first.
func TestKnowsTheCompilersLayout(t *testing.T) {
	odd := struct {
		Long     string `json:"long" note:"a tag so long that its length takes two bytes: ------------------------------------------------------------------------------------------"`
		Pointers [1]*int
		Wrapped  struct{ P *int }
		Nothing  [0]string
		Channel  chan int
		Func     func(int) string
		Complex  complex64
		Map      map[kind]struct{ A, b any }
		Methods  interface {
			M()
			n()
		}
		error
		hidden *everything
	}{}
	values := []any{&odd, fmt.Errorf("x"), &failing{}}
	for _, place := range places() {
		values = append(values, place())
	}
	for _, value := range values {
		got, want := json.Layout(value), map[string]string{}
		describe(reflect.TypeOf(value), want)
		for typ, text := range want {
			assert.Equal(t, text, got[typ], typ)
		}
		for typ, text := range got {
			if of, to := strings.CutPrefix(typ, "to "); to {
				assert.Equal(t, "*"+of, text)
			} else {
				assert.Equal(t, want[typ], text, typ)
			}
		}
	}
}

func describe(t reflect.Type, seen map[string]string) {
	if seen[t.String()] != "" {
		return
	}
	pointerLike := reflect.Zero(t)
	for pointerLike.Kind() == reflect.Array && pointerLike.Len() == 1 || pointerLike.Kind() == reflect.Struct && pointerLike.NumField() == 1 {
		if pointerLike.Kind() == reflect.Array {
			pointerLike = pointerLike.Index(0)
		} else {
			pointerLike = pointerLike.Field(0)
		}
	}
	direct := false
	switch pointerLike.Kind() {
	case reflect.Pointer, reflect.Map, reflect.Chan, reflect.Func, reflect.UnsafePointer:
		direct = true
	}
	text := fmt.Sprint(uint8(t.Kind()), " ", t.Size(), " ", direct)
	seen[t.String()] = text
	var inner []reflect.Type
	switch t.Kind() {
	case reflect.Pointer, reflect.Slice:
		inner = append(inner, t.Elem())
	case reflect.Array:
		inner = append(inner, t.Elem())
		text += fmt.Sprint(" ", t.Len())
	case reflect.Map:
		inner = append(inner, t.Key(), t.Elem())
	case reflect.Interface:
		text += fmt.Sprint(" ", t.NumMethod())
	case reflect.Struct:
		for i := range t.NumField() {
			f := t.Field(i)
			text += fmt.Sprintf(" %s %q %v %v %d", f.Name, string(f.Tag), f.IsExported(), f.Anonymous, f.Offset)
			inner = append(inner, f.Type)
		}
	}
	for _, i := range inner {
		text += " " + i.String()
		describe(i, seen)
	}
	seen[t.String()] = text
}

// byMethods has its own JSON in its value, or only in a pointer to it, in each way that a value may be held.
type byMethods struct {
	One    onePointer
	Ones   []onePointer
	Keyed  map[string]onePointer
	Single [1]onePointer
	Held   any
	Asked  interface{ MarshalJSON() ([]byte, error) }
	At     *onePointer
	Sole   struct{ Inner onePointer }
	Far    []address
	Fars   [2]address
	Maps   map[string]map[string]*address
}

// onePointer is held by an interface as it is, not by a pointer to it.
type onePointer struct{ N *int }

func (o onePointer) MarshalJSON() ([]byte, error) {
	if o.N == nil {
		return []byte(`"none"`), nil
	}
	return fmt.Append(nil, *o.N), nil
}

func (o *onePointer) UnmarshalJSON(data []byte) error {
	n := len(data)
	o.N = &n
	return nil
}

func TestAsksTheMethodsOfValuesHeldInAnyWay(t *testing.T) {
	n := 5
	one := onePointer{&n}
	values := []any{one, &one, []any{one, &one}, byMethods{}, &byMethods{}, byMethods{One: one, Ones: []onePointer{one, {}}, Keyed: map[string]onePointer{"a": one, "b": {}},
		Single: [1]onePointer{one}, Held: one, Asked: &one, At: &one, Sole: struct{ Inner onePointer }{one}, Far: []address{{1}},
		Maps: map[string]map[string]*address{"a": nil, "b": {"c": nil, "d": {2}}}}}
	for _, value := range values {
		sameBytes(t, value)
		sameBytes(t, []any{value, &value})
	}
	place := func() any { return &byMethods{Held: &onePointer{}, Asked: &onePointer{}} }
	for _, data := range []string{
		`{"One":1,"Ones":[22,null,[]],"Keyed":{"x":333,"y":null},"Single":[4444],"Held":55555,"Asked":"six","At":7,"Sole":{"Inner":8}}`,
		`{"One":null,"Held":null,"Asked":null,"At":null,"Keyed":null}`, `{"Maps":{"a":{"b":{"N":3},"c":null},"d":null}}`,
	} {
		alike(t, []byte(data), place)
	}
}

// What was stored must be known to the garbage collector, and nothing else be taken for a pointer.
func TestBearsGarbageCollectionWhileReading(t *testing.T) {
	var text bytes.Buffer
	text.WriteString(`{"lists":[`)
	for i := range 2000 {
		fmt.Fprintf(&text, `%s[%d,"%d",{"k%d":[%d]}]`, strings.Repeat(",", min(i, 1)), i, i, i, i)
	}
	text.WriteString(`],"kinds":{`)
	for i := range 2000 {
		fmt.Fprintf(&text, `%s"k%d":%d`, strings.Repeat(",", min(i, 1)), i, i)
	}
	text.WriteString(`}}`)
	stop, done := make(chan struct{}), make(chan struct{})
	go func() {
		defer close(done)
		for {
			select {
			case <-stop:
				return
			default:
				runtime.GC()
			}
		}
	}()
	for range 20 {
		var got, want everything
		require.NoError(t, json.Unmarshal(text.Bytes(), &got))
		require.NoError(t, real.Unmarshal(text.Bytes(), &want))
		require.Equal(t, want, got)
		sameBytes(t, got)
	}
	close(stop)
	<-done
}
