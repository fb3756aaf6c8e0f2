package json_test

import (
	"bytes"
	real "encoding/json"
	"testing"

	"garlandry/pwa/shell/standin/json"

	"github.com/stretchr/testify/require"
)

func seed(f *testing.F) {
	for _, data := range corpus(f) {
		if len(data) < 1<<13 {
			f.Add(data)
		}
	}
}

func FuzzValidAndCompactAsTheRealOne(f *testing.F) {
	seed(f)
	f.Fuzz(func(t *testing.T, data []byte) {
		require.Equal(t, real.Valid(data), json.Valid(data))
		var got, want bytes.Buffer
		require.Equal(t, real.Compact(&want, data) == nil, json.Compact(&got, data) == nil)
		require.Equal(t, want.String(), got.String())
		sameBytes(t, real.RawMessage(data))
		sameBytes(t, string(data))
	})
}

func FuzzAnythingAsTheRealOne(f *testing.F) {
	seed(f)
	place := places()["any"]
	f.Fuzz(func(t *testing.T, data []byte) { alike(t, data, place) })
}

func FuzzEverythingAsTheRealOne(f *testing.F) {
	seed(f)
	fresh, used := places()["everything"], places()["everything made"]
	f.Fuzz(func(t *testing.T, data []byte) {
		alike(t, data, fresh)
		alike(t, data, used)
	})
}

func FuzzExchangeAsTheRealOne(f *testing.F) {
	seed(f)
	request, state, piece := places()["response"], places()["state"], places()["piece"]
	f.Fuzz(func(t *testing.T, data []byte) {
		alike(t, data, request)
		alike(t, data, state)
		alike(t, data, piece)
	})
}

func FuzzFloatsAsTheRealOne(f *testing.F) {
	for _, n := range []float64{0, 1e21, 1e-7, 1e-6, 0.1, -1e-9} {
		f.Add(n)
	}
	f.Fuzz(func(t *testing.T, n float64) {
		sameBytes(t, n)
		sameBytes(t, float32(n))
	})
}
