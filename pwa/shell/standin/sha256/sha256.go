// Package sha256 stands in for crypto/sha256 when the on-device core is built: the real package brings the self-tests of
// a certified module, with its ciphers, to a phone that only hashes its log. The algorithm is that of FIPS 180-4; a test
// holds that both give the same sums.
package sha256

import "hash"

// Size and BlockSize are in bytes.
const (
	Size      = 32
	BlockSize = 64
)

type digest struct {
	state  [8]uint32
	block  [BlockSize]byte
	filled int
	length uint64
}

// New returns a hash that computes SHA-256.
func New() hash.Hash {
	d := new(digest)
	d.Reset()
	return d
}

func (d *digest) Reset() {
	*d = digest{state: [8]uint32{0x6a09e667, 0xbb67ae85, 0x3c6ef372, 0xa54ff53a, 0x510e527f, 0x9b05688c, 0x1f83d9ab, 0x5be0cd19}}
}

func (d *digest) Size() int      { return Size }
func (d *digest) BlockSize() int { return BlockSize }

func (d *digest) Write(p []byte) (int, error) {
	n := len(p)
	d.length += uint64(n)
	for len(p) > 0 {
		taken := copy(d.block[d.filled:], p)
		d.filled += taken
		p = p[taken:]
		if d.filled == BlockSize {
			d.compress()
			d.filled = 0
		}
	}
	return n, nil
}

// Sum appends the sum of what was written so far; more may be written after it.
func (d *digest) Sum(in []byte) []byte {
	end := *d
	bits := end.length * 8
	end.Write([]byte{0x80})
	for end.filled != BlockSize-8 {
		end.Write([]byte{0})
	}
	var tail [8]byte
	for i := range tail {
		tail[i] = byte(bits >> (56 - 8*i))
	}
	end.Write(tail[:])
	for _, word := range end.state {
		in = append(in, byte(word>>24), byte(word>>16), byte(word>>8), byte(word))
	}
	return in
}

func (d *digest) compress() {
	var w [64]uint32
	for i := 0; i < 16; i++ {
		b := d.block[4*i:]
		w[i] = uint32(b[0])<<24 | uint32(b[1])<<16 | uint32(b[2])<<8 | uint32(b[3])
	}
	for i := 16; i < 64; i++ {
		x, y := w[i-15], w[i-2]
		w[i] = w[i-16] + (x>>7 ^ x<<25 ^ (x>>18 ^ x<<14) ^ x>>3) + w[i-7] + (y>>17 ^ y<<15 ^ (y>>19 ^ y<<13) ^ y>>10)
	}
	s := d.state
	for i := 0; i < 64; i++ {
		e, a := s[4], s[0]
		t1 := s[7] + (e>>6 ^ e<<26 ^ (e>>11 ^ e<<21) ^ (e>>25 ^ e<<7)) + (e&s[5] ^ ^e&s[6]) + rounds[i] + w[i]
		t2 := (a>>2 ^ a<<30 ^ (a>>13 ^ a<<19) ^ (a>>22 ^ a<<10)) + (a&s[1] ^ a&s[2] ^ s[1]&s[2])
		copy(s[1:], s[:7])
		s[4] += t1
		s[0] = t1 + t2
	}
	for i := range s {
		d.state[i] += s[i]
	}
}
