package fmt_test

import (
	"errors"
	"io"
	"math"
)

type (
	whole   int64
	natural uint16
	part    float32
	words   string
	truth   bool
	raw     []byte
	colour  int
	card    struct{ name string }
	fault   struct{ code int }
	clumsy  struct{}
	letters []letter
	letter  byte
)

func (c colour) String() string { return "colour " + string(rune('a'+int(c)%26)) }

func (c card) String() string { return "card " + c.name }

func (f *fault) Error() string { return "fault " + string(rune('0'+f.code%10)) }

func (clumsy) String() string { panic(errors.New("no words")) }

// samples holds values of every kind that the stand-in prints, and all that a kind has of edges.
var samples = map[string][]any{
	"bool": {true, false, truth(true)},
	"int":  {0, 1, -1, 42, -1234567, math.MaxInt64, math.MinInt64, int8(-128), int16(300), 'é', int64(-5), whole(-77)},
	"uint": {uint(0), uint8(255), uint16(9), uint32(0x10FFFF), uint64(math.MaxUint64), uintptr(11), natural(12)},
	"float": {0.0, math.Copysign(0, -1), 1.0, -1.5, 1e6, 123456789.0, 1e-7, 2.0 / 3,
		math.Inf(1), math.Inf(-1), math.NaN(), math.MaxFloat64, math.SmallestNonzeroFloat64, float32(0.1), part(-2.25)},
	"string":   {"", "Reading room", "a\x00b\xff\"q\"\n", "ä→😀", words("sand"), words("")},
	"error":    {io.EOF, &fault{3}, errors.Join(io.EOF, &fault{4}), (*fault)(nil)},
	"stringer": {colour(2), card{"blush"}, &card{"ink blue"}, (*card)(nil), clumsy{}},
	"bytes":    {[]byte("coral"), []byte{}, []byte(nil), raw("\x00\xfe"), [3]byte{1, 2, 3}, letters{'a', 'b'}},
	"list": {[]string{"sand", "blush"}, []string(nil), []int{3, -4}, []words{"x"}, []colour{0, 1},
		[]error{io.EOF, nil}, []any{1, "a", nil, 2.5}, []int8{-1, 1}, []uint16{65535},
		[]float32{0.1}, []truth{true, false}, [0]int{}, [2]float64{1, 2}, [][]int{{1}, {2, 3}}},
	"nil": {nil},
}
