package json_test

import (
	"bytes"
	real "encoding/json"
	"errors"
	"math"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"garlandry/app/job"
	"garlandry/app/sync"
	"garlandry/calc/cluster"
	"garlandry/pwa/shell/standin/json"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// places gives pointers to every type that the on-device core reads or writes, and to what stands for its private ones.
func places() map[string]func() any {
	return map[string]func() any{
		"any":             func() any { return new(any) },
		"operation":       func() any { return new(job.Op) },
		"record":          func() any { return new(job.Rec) },
		"counted":         func() any { return new(job.Counted) },
		"state":           func() any { return new(job.State) },
		"author":          func() any { return new(job.Author) },
		"brief":           func() any { return new(job.Brief) },
		"contact":         func() any { return new(job.Contact) },
		"colour":          func() any { return new(job.Colour) },
		"helper":          func() any { return new(job.Member) },
		"kit":             func() any { return new(job.Kit) },
		"added":           func() any { return new(job.Added) },
		"override":        func() any { return new(job.Override) },
		"piece":           func() any { return new(job.Piece) },
		"shares":          func() any { return new([]job.Share) },
		"counts":          func() any { return new([]job.TypedCount) },
		"recipe":          func() any { return new(cluster.Recipe) },
		"request":         func() any { return new(sync.Request) },
		"response":        func() any { return new(sync.Response) },
		"note":            func() any { return new(sync.Note) },
		"fields":          func() any { return new(map[string]json.RawMessage) },
		"entries":         func() any { return new([]map[string]json.RawMessage) },
		"text":            func() any { return new(string) },
		"number":          func() any { return new(float64) },
		"whole":           func() any { return new(int) },
		"flag":            func() any { return new(bool) },
		"sizes":           func() any { return new([]int) },
		"lengths":         func() any { return new([]float64) },
		"everything":      func() any { return new(everything) },
		"everything made": func() any { return made() },
	}
}

type inner struct {
	Shown  string
	Hidden int `json:"text"`
	Twice  int
}

type Twin struct{ Twice, Deep int }

type kind string

// everything has what the app's types have, and what they might have next.
type everything struct {
	inner
	Twin
	job.Stamp
	Text   string  `json:"text"`
	Kind   kind    `json:"kind,omitempty"`
	Flag   bool    `json:"flag,omitempty"`
	Small  int8    `json:"small,omitempty"`
	Long   int64   `json:"long"`
	Byte   uint8   `json:"byte,omitempty"`
	Count  uint64  `json:"count"`
	Float  float64 `json:"float,omitempty"`
	Single float32 `json:"single"`
	Left   string  `json:"-"`
	//lint:ignore SA5008 a field called - is what is tested
	Dash string `json:"-,"`
	//lint:ignore U1000 a field that nobody may see is what is tested
	unseen   int                       //
	Pointer  *int                      `json:"pointer,omitempty"`
	Far      ***kind                   `json:"far"`
	Same     *everything               `json:"same"`
	Any      any                       `json:"any"`
	Sized    interface{ M() }          `json:"sized"`
	Raw      real.RawMessage           `json:"raw"`
	RawAt    *real.RawMessage          `json:"raw_at,omitempty"`
	Raws     []real.RawMessage         `json:"raws,omitempty"`
	Recipe   cluster.Recipe            `json:"recipe"`
	RecipeAt *cluster.Recipe           `json:"recipe_at"`
	Three    [3]int                    `json:"three"`
	None     [0]int                    `json:"none,omitempty"`
	List     []inner                   `json:"list,omitempty"`
	Lists    [][]any                   `json:"lists"`
	Map      map[string]inner          `json:"map,omitempty"`
	Kinds    map[kind]*int             `json:"kinds"`
	Recipes  map[string]cluster.Recipe `json:"recipes"`
	Struct   struct{ A, B int }        `json:"struct,omitempty"`
	Spelt    int                       `json:"<sk&É>"`
}

// made is a place that holds something already.
func made() *everything {
	n, k := 7, kind("old")
	at := &k
	far := &at
	var inside any = new(int)
	return &everything{Pointer: &n, Far: &far, Same: &everything{Text: "before"}, Any: &inside, Raw: real.RawMessage(`[1]`),
		Recipe: cluster.Recipe{{Duplets: 2, SizeIn: 11, ToIn: 10}}, Three: [3]int{1, 2, 3},
		List: append(make([]inner, 0, 4), inner{Shown: "a"}, inner{Shown: "b"}), Map: map[string]inner{"old": {Shown: "x"}},
		Kinds: map[kind]*int{"a": &n}, Struct: struct{ A, B int }{1, 2}}
}

// alike decodes with both into places of one type and holds what came of it against each other; then it encodes that.
func alike(t *testing.T, data []byte, place func() any) {
	t.Helper()
	ours, theirs := place(), place()
	// The raw messages of the real package read themselves, so types with them serve both.
	mine, other := json.Unmarshal(data, ours), real.Unmarshal(data, theirs)
	sameError(t, mine, other)
	require.True(t, sameValue(theirs, ours), "%q\nreal %#v\nours %#v", data, theirs, ours)
	sameBytes(t, ours)
	sameBytes(t, reflect.ValueOf(ours).Elem().Interface())
}

func sameValue(a, b any) bool { return reflect.DeepEqual(a, b) }

func sameError(t *testing.T, mine, other error) {
	t.Helper()
	require.Equal(t, other != nil, mine != nil, "real: %v\nours: %v", other, mine)
	var bad *real.SyntaxError
	var ill *real.UnmarshalTypeError
	switch {
	case errors.As(other, &bad):
		var own *json.SyntaxError
		require.True(t, errors.As(mine, &own), "real: %v\nours: %v", other, mine)
		require.Equal(t, bad.Offset, own.Offset)
	case errors.As(other, &ill):
		var own *json.UnmarshalTypeError
		require.True(t, errors.As(mine, &own), "real: %v\nours: %v", other, mine)
	}
}

func sameBytes(t *testing.T, value any) {
	t.Helper()
	want, other := real.Marshal(value)
	got, mine := json.Marshal(value)
	require.Equal(t, other != nil, mine != nil, "real: %v\nours: %v", other, mine)
	require.Equal(t, string(want), string(got))
	want, _ = real.MarshalIndent(value, "> ", " \t")
	got, _ = json.MarshalIndent(value, "> ", " \t")
	require.Equal(t, string(want), string(got))
}

// corpus is job files, exchanges, and texts that are odd in one way each.
func corpus(t testing.TB) [][]byte {
	t.Helper()
	all := [][]byte{}
	for _, odd := range []string{
		``, ` `, `null`, ` null `, `nul`, `nulL`, `true`, `truex`, `false`, `0`, `-0`, `-`, `01`, `1.`, `1.5`, `1e`, `1e+`, `1E-07`, `-1e400`, `1e400`,
		`1e-400`, `.5`, `+1`, `255`, `256`, `-129`, `9223372036854775808`, `18446744073709551616`, `3.5e38`, `1x`, `NaN`, `0x10`, `1_0`,
		`""`, `"`, `"a`, `"\`, `"\x"`, `"\u12"`, `"\u12G4"`, `"\u00e9\ud83c\udf88"`, `"\ud83c"`, `"\ud83cx"`, `"\ud83c\ud83c\udf88"`, `"\udf88\ud83c"`,
		`"\ud83c\u0041"`, `"\b\f\n\r\t\/\\\" '"`, "\"\xff\xc3\"", "\"\xed\xa0\x80\"", "\"\u2028\u2029\u007f\"", "\"\x01\"", "\"a\nb\"", `"<b>&amp;"`, "\"\ufffd\"",
		`[]`, `[ ]`, `[1,2,3,4,5]`, `[1,]`, `[,]`, `[1 2]`, `[1`, `[`, `]`, `[null,true,"x",1.5,{"a":[]}]`, `[1e999,1]`, `[[1],[2,[3]],[]]`,
		`{}`, `{ }`, `{"a"}`, `{"a":}`, `{"a":1,}`, `{a:1}`, `{"a":1 "b":2}`, `{"a":1}}`, `{"a":1`, `{"a":{"b":1},"a":{"c":2}}`, `{"a":1}x`, `{,}`, `{1:2}`, "{\"a\"\u00a0:1}",
		`{"text":"t","TEXT":"u","Text":null}`, `{"\u0074ext":"t"}`, "{\"\u017fmall\":3,\"\u212aind\":\"k\",\"byte\":300}", "{\"<\u017f\u212a&É>\":4,\"<SK&É>\":5}",
		`{"small":1.5,"long":"x","count":-1,"flag":1,"float":"1","text":[1],"list":{"a":1},"map":[1]}`,
		`{"pointer":null,"far":null,"same":null,"any":null,"raw":null,"raw_at":null,"recipe":null,"recipe_at":null,"list":null,"map":null,"three":null,"sized":null,"struct":null}`,
		`{"pointer":3,"far":"x","same":{"same":{"text":"deep"}},"any":{"b":[1,"2",null],"a":1e21},"raw": { "a" : "<\u2028" } ,"raw_at":[ 1 ],"raws":[1,null, "x" ]}`,
		"{\"raw\":\"\u2028 <\xff> \",\"single\":1e-7,\"float\":1e-7,\"long\":-5}", `{"single":1e39}`, `{"single":3.4e38,"float":1e21}`, `{"single":1e21}`, `{"single":1e-6,"float":1e-6}`,
		`{"recipe":"2x11@10 + 1x18@16","recipe_at":"1x5@4","recipes":{"a":"2x11@10","b":null}}`, `{"recipe":7}`, `{"recipe":"nonsense","text":"after"}`, `{"recipe":["2x11@10"],"text":"after"}`,
		`{"three":[9],"list":[{"shown":"n"}],"map":{"new":{"TEXT":5},"old":{}},"kinds":{"a":null,"b":2}}`, `{"three":[1,2,3,4],"list":[{},{},{},{},{}]}`, `{"list":[],"none":[1],"lists":[[],null,[1]]}`,
		`{"sized":1}`, `{"sized":{}}`, `{"sized":[]}`, `{"any":1e999}`, `{"any":5,"struct":{"a":1,"B":2,"c":3}}`, `{"Twice":1,"Deep":2,"Shown":"s","Left":"l","-":"d","unseen":1}`,
		`{"float":-0.0,"single":-0}`, `{"t":5,"d":"x","n":18446744073709551615,"i":"id"}`, `{"":1," ":2}`,
		strings.Repeat("[", 10000) + strings.Repeat("]", 10000), strings.Repeat("[", 10001) + strings.Repeat("]", 10001), strings.Repeat(`{"a":`, 10001) + "1" + strings.Repeat("}", 10001),
	} {
		all = append(all, []byte(odd))
	}
	for _, pattern := range []string{"*.json", "bad/*.json"} {
		files, err := filepath.Glob(filepath.Join("..", "..", "..", "..", "testdata", "jobs", pattern))
		require.NoError(t, err)
		require.NotEmpty(t, files)
		for _, file := range files {
			data, err := os.ReadFile(file)
			require.NoError(t, err)
			all = append(all, data)
		}
	}
	for _, value := range exchanges(t) {
		data, err := real.Marshal(value)
		require.NoError(t, err)
		all = append(all, data)
	}
	return all
}

// exchanges gives filled values of the types on the wire and in the phone's storage, from the reading room's job.
func exchanges(t testing.TB) []any {
	t.Helper()
	var recs []job.Rec
	var ops []job.Op
	for _, file := range []string{"reading-room.json", "hostile.json", "allotment-supper.json"} {
		data, err := os.ReadFile(filepath.Join("..", "..", "..", "..", "testdata", "jobs", file))
		require.NoError(t, err)
		changes, err := job.DecodeFile(data)
		require.NoError(t, err)
		for _, c := range changes {
			n := uint64(len(ops) + 1)
			op := job.Op{ID: "op-" + file, Device: "d<&>", Number: n, Version: job.Version, Kind: c.Kind, Entity: c.Entity, Field: c.Field, Value: c.Value,
				Delta: c.Delta, Wall: 1790000000000 + int64(n), Counter: uint32(n % 3), Parents: []string{"a", "b\u2028"}[:n%3%2]}
			ops = append(ops, op)
			recs = append(recs, job.Rec{Op: op, Effective: op.Wall, Seq: n, Author: job.Author{Role: "owner", Name: "Bea & \"Ines\""}, MAC: "00ff"})
		}
	}
	state := job.Fold(recs...)
	j := job.Read("reading-room", state, job.NewState())
	out := []any{state, &j.Brief, j.Brief, j.Pieces, j.Colours, j.Crew, j.Kit, j.Added, j.Overrides, j.Choices, j.Contact,
		sync.Request{V: 1, Device: "x", Ops: ops, Heal: recs[:3], Cursor: sync.Cursor{Epoch: "e", Seq: 4}}, sync.Response{V: 1, Recs: recs, Acks: []sync.Ack{{ID: "a", Why: "<"}}}}
	for i := range recs {
		out = append(out, recs[i], &ops[i])
	}
	return out
}

func TestDecodesAndEncodesAsTheRealOne(t *testing.T) {
	for name, place := range places() {
		t.Run(name, func(t *testing.T) {
			for _, data := range corpus(t) {
				alike(t, data, place)
			}
		})
	}
}

func TestWritesTheAppsValuesAsTheRealOne(t *testing.T) {
	for _, value := range exchanges(t) {
		sameBytes(t, value)
	}
	file, err := os.ReadFile(filepath.Join("..", "..", "..", "..", "testdata", "jobs", "reading-room.json"))
	require.NoError(t, err)
	changes, err := job.DecodeFile(file)
	require.NoError(t, err)
	want, err := job.EncodeFile(job.Preview(changes))
	require.NoError(t, err)
	var parts map[string]any
	require.NoError(t, json.Unmarshal(want, &parts))
	got, err := json.MarshalIndent(parts, "", "  ")
	require.NoError(t, err)
	theirs, err := real.MarshalIndent(parts, "", "  ")
	require.NoError(t, err)
	assert.Equal(t, string(theirs), string(got))
}

func TestWritesOddValuesAsTheRealOne(t *testing.T) {
	var nilRecipe *cluster.Recipe
	var nilRaw real.RawMessage
	deep := any(1)
	for range 2000 {
		deep = []any{deep}
	}
	many := map[string]int{}
	for i := range 3000 {
		many[strings.Repeat("k", i%7)+string(rune('a'+i%26))+string(rune(i))] = i
	}
	for name, value := range map[string]any{
		"nil": nil, "nil pointer": (*int)(nil), "nil recipe": nilRecipe, "nil raw": nilRaw, "nil raw at": &nilRaw, "empty raw": real.RawMessage{}, "bad raw": real.RawMessage(`{"a"`),
		"raw": real.RawMessage(" { \"a<\" : [ 1 , \"\\\" \u2029\xff\" ] } "), "infinite": math.Inf(1), "not a number": math.NaN(), "negative zero": math.Copysign(0, -1),
		"floats":  []float64{0, 1e20, 1e21, -1e21, 123456789012345680000, 1e-5, 1e-6, 9.999e-7, 1e-7, 1e-10, 1e-100, 5e-324, math.MaxFloat64, 0.1, 100, 3.0000000000000004},
		"singles": []float32{0, 1e20, 1e21, 9.99e20, 1e-6, 9.99e-7, 1e-7, 1e-10, math.MaxFloat32, math.SmallestNonzeroFloat32, 0.1},
		"wholes":  []any{int8(-128), int16(1), int32(-2), int64(math.MinInt64), uint8(255), uint16(2), uint32(3), uint64(math.MaxUint64), uintptr(4), 'x'},
		"texts":   []string{"", "\x00\x1f\x7f", "\b\f\n\r\t", `"\/'`, "<>&", "\u2028\u2029\u202a", "\xff\xe2\x80", "a\xc3", "é🎈", "\ufffd"},
		"deep":    deep, "many keys": many, "named keys": map[kind]int{"b": 1, "a": 2}, "odd keys": map[string]any{"<": 1, "\xff": 2, "\u2028": nil, "": []any{}},
		"channel": make(chan int), "function": func() {}, "complex": 1i, "nil channel inside": struct{ C chan int }{}, "channels": []chan int{nil},
		"recipe": cluster.Recipe{{Duplets: 2, SizeIn: 11, ToIn: 10}}, "recipe keyed": map[string]cluster.Recipe{"a": nil, "b": {{Duplets: 1, SizeIn: 5, ToIn: 4}}},
		"recipe held": []any{cluster.Recipe{}, &cluster.Recipe{}, nilRecipe}, "made": made(), "made copy": *made(), "zero": everything{}, "nil map": map[string]int(nil), "nil list": []int(nil),
		"text marshaler": []any{failing{}, &failing{}}, "by address": []address{{1}}, "not by address": map[string]address{"a": {1}}, "held address": []any{address{1}, &address{2}},
	} {
		t.Run(name, func(t *testing.T) { sameBytes(t, value) })
	}
}

type failing struct{}

var errFailing = errors.New("will not")

func (failing) MarshalText() ([]byte, error) { return nil, errFailing }

// address writes itself only where it can be pointed to.
type address struct{ N int }

func (a *address) MarshalJSON() ([]byte, error) { return []byte(` [ "address" ] `), nil }

func TestKeepsAMarshalersError(t *testing.T) {
	_, err := json.Marshal(failing{})
	assert.ErrorIs(t, err, errFailing)
	_, err = json.Marshal(json.RawMessage("{"))
	var bad *json.SyntaxError
	assert.ErrorAs(t, err, &bad)
}

func TestOwnRawMessageIsTheRealOne(t *testing.T) {
	type own struct {
		Raw  json.RawMessage            `json:"raw,omitempty"`
		Rows map[string]json.RawMessage `json:"rows"`
	}
	type theirs struct {
		Raw  real.RawMessage            `json:"raw,omitempty"`
		Rows map[string]real.RawMessage `json:"rows"`
	}
	for _, data := range []string{`{}`, `{"raw":null}`, `{"raw": [ 1, "<" ] ,"rows":{"b":null,"a": {} }}`, `{"rows":{"a":1,"a":22,"b":"x"}}`} {
		var mine own
		var other theirs
		require.NoError(t, json.Unmarshal([]byte(data), &mine))
		require.NoError(t, real.Unmarshal([]byte(data), &other))
		got, err := json.Marshal(mine)
		require.NoError(t, err)
		want, err := real.Marshal(other)
		require.NoError(t, err)
		assert.Equal(t, string(want), string(got))
	}
	assert.Error(t, (*json.RawMessage)(nil).UnmarshalJSON([]byte("1")))
}

func TestRefusesWhatItDoesNotKnow(t *testing.T) {
	for name, place := range map[string]any{
		"bytes": &struct{ B []byte }{B: []byte{1}}, "whole keys": &struct{ B map[int]int }{}, "quoted": &struct {
			B int `json:",string"`
		}{}, "zeros left out": &struct {
			B int `json:"b,omitzero"`
		}{}, "embedded pointer": &struct{ *Twin }{},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := json.Marshal(place)
			assert.ErrorContains(t, err, "cannot write")
			assert.ErrorContains(t, json.Unmarshal([]byte(`{"B":"AQ=="}`), place), "cannot read")
		})
	}
	assert.Error(t, json.Unmarshal([]byte("1"), nil))
	assert.Error(t, json.Unmarshal([]byte("1"), 5))
	assert.Error(t, json.Unmarshal([]byte("1"), (*int)(nil)))
	type ring struct{ Next *ring }
	r := &ring{}
	r.Next = r
	_, err := json.Marshal(r)
	assert.ErrorContains(t, err, "too deep")
}

func TestStreamsAsTheRealOne(t *testing.T) {
	for _, text := range []string{``, ` `, `1 2`, `{"key":"a"} [3] x`, `{"key":"a","other":1}{"KEY":"b"}`, `[1`, `"a" "b`, `1x`, `nul`, `]`, `01`, `{}{}`} {
		for _, strict := range []bool{false, true} {
			mine, other := json.NewDecoder(bytes.NewReader([]byte(text))), real.NewDecoder(strings.NewReader(text))
			if strict {
				mine.DisallowUnknownFields()
				other.DisallowUnknownFields()
			}
			for range 4 {
				var a, b struct {
					Key string `json:"key"`
				}
				got, want := mine.Decode(&a), other.Decode(&b)
				sameError(t, got, want)
				assert.Equal(t, b, a)
			}
		}
	}
	var got, want bytes.Buffer
	require.NoError(t, json.NewEncoder(&got).Encode(made()))
	require.NoError(t, real.NewEncoder(&want).Encode(made()))
	assert.Equal(t, want.String(), got.String())
	assert.Error(t, json.NewEncoder(&got).Encode(math.NaN()))
}
