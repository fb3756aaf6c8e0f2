package hmac_test

import (
	real "crypto/hmac"
	"crypto/sha256"
	"testing"

	"garlandry/pwa/shell/standin/hmac"

	"github.com/stretchr/testify/assert"
)

func FuzzCodesAsTheRealOne(f *testing.F) {
	f.Add([]byte("Jefe"), []byte("what do ya want for nothing?"), []byte{}) // RFC 4231, test case 2
	f.Add([]byte{}, []byte("no key"), []byte("more"))
	f.Add(make([]byte, 131), []byte("a key longer than a block"), []byte{1})
	f.Fuzz(func(t *testing.T, key, first, second []byte) {
		want, got := real.New(sha256.New, key), hmac.New(sha256.New, key)
		for _, part := range [][]byte{first, second} {
			want.Write(part)
			got.Write(part)
			assert.Equal(t, want.Sum(nil), got.Sum(nil))
		}
		got.Reset()
		got.Write(second)
		again := real.New(sha256.New, key)
		again.Write(second)
		assert.True(t, hmac.Equal(again.Sum(nil), got.Sum(nil)))
		assert.False(t, hmac.Equal(again.Sum(nil), got.Sum(nil)[1:]))
	})
}
