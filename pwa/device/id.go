package device

const idLetters = "abcdefghijklmnopqrstuvwxyz234567"

// NewID writes random bytes as the lower-case base32 letters of RFC 4648 without padding: 26 of them for 16 bytes.
func NewID(random []byte) string {
	var out []byte
	held, bits := uint(0), uint(0)
	for _, b := range random {
		held, bits = held<<8|uint(b), bits+8
		for bits >= 5 {
			bits -= 5
			out = append(out, idLetters[held>>bits&31])
		}
	}
	if bits > 0 {
		out = append(out, idLetters[held<<(5-bits)&31])
	}
	return string(out)
}
