// Package hmac stands in for crypto/hmac when the on-device core is built, for the reason given in package sha256 beside
// it. The construction is that of RFC 2104; a test holds that both give the same codes.
package hmac

import "hash"

type code struct {
	inner, outer hash.Hash
	pad          []byte
}

// New returns a keyed hash over the given kind of hash.
func New(kind func() hash.Hash, key []byte) hash.Hash {
	c := &code{inner: kind(), outer: kind()}
	c.pad = make([]byte, c.inner.BlockSize())
	if len(key) > len(c.pad) {
		c.outer.Write(key)
		key = c.outer.Sum(nil)
	}
	copy(c.pad, key)
	c.Reset()
	return c
}

func padded(pad []byte, with byte) []byte {
	out := make([]byte, len(pad))
	for i, b := range pad {
		out[i] = b ^ with
	}
	return out
}

func (c *code) Reset() {
	c.inner.Reset()
	c.inner.Write(padded(c.pad, 0x36))
}

func (c *code) Write(p []byte) (int, error) { return c.inner.Write(p) }
func (c *code) Size() int                   { return c.inner.Size() }
func (c *code) BlockSize() int              { return c.inner.BlockSize() }

// Sum appends the code of what was written so far; more may be written after it.
func (c *code) Sum(in []byte) []byte {
	c.outer.Reset()
	c.outer.Write(padded(c.pad, 0x5c))
	c.outer.Write(c.inner.Sum(nil))
	return c.outer.Sum(in)
}

// Equal reports whether two codes are the same, in a time that does not depend on where they differ.
func Equal(a, b []byte) bool {
	if len(a) != len(b) {
		return false
	}
	var differ byte
	for i := range a {
		differ |= a[i] ^ b[i]
	}
	return differ == 0
}
