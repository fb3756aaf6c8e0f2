package device_test

import (
	"encoding/base32"
	"strings"
	"testing"

	"garlandry/pwa/device"

	"github.com/stretchr/testify/assert"
)

func FuzzIDsAreBase32(f *testing.F) {
	f.Add([]byte("foobar")) // RFC 4648, section 10
	f.Add(make([]byte, 16))
	f.Fuzz(func(t *testing.T, random []byte) {
		want := strings.ToLower(base32.StdEncoding.WithPadding(base32.NoPadding).EncodeToString(random))
		assert.Equal(t, want, device.NewID(random))
	})
}
