package sha256_test

import (
	real "crypto/sha256"
	"testing"

	"garlandry/pwa/shell/standin/sha256"

	"github.com/stretchr/testify/assert"
)

func FuzzSumsAsTheRealOne(f *testing.F) {
	f.Add([]byte("abc"), []byte{}) // the example of FIPS 180-4 begins with this text
	f.Add(make([]byte, 55), make([]byte, 1))
	f.Add(make([]byte, 64), make([]byte, 130))
	f.Fuzz(func(t *testing.T, first, second []byte) {
		want, got := real.New(), sha256.New()
		for _, part := range [][]byte{first, second} {
			want.Write(part)
			got.Write(part)
			assert.Equal(t, want.Sum(nil), got.Sum(nil))
		}
		got.Reset()
		got.Write(second)
		sum := real.Sum256(second)
		assert.Equal(t, sum[:], got.Sum(nil))
	})
}
