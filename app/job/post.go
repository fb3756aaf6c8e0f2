package job

const (
	idLetters  = "abcdefghijklmnopqrstuvwxyz234567"
	idLength   = 26 // letters of 128 random bits
	idTail     = 4  // letters that number the entities or operations of one post
	mostOfPost = 1 << (5 * idTail)
)

// Post is the id of one submitted form: 26 letters for 128 random bits. Everything that the form makes is named after
// it, by the phone and by the server alike. A form that is submitted again therefore makes operations that the log
// already has, and counts once.
type Post string

// Valid reports whether the id has 26 lower-case base32 letters.
func (p Post) Valid() bool {
	if len(p) != idLength {
		return false
	}
	for i := range len(p) {
		if valueOf(p[i]) < 0 {
			return false
		}
	}
	return true
}

// EntityID names the n-th new entity of the post, from 0. Its end is random too, since pages use only the last letters.
func (p Post) EntityID(n int) string {
	at := idLength - idTail
	number := n + 1
	for i := range idTail {
		number += valueOf(p[at+i]) << (5 * (idTail - 1 - i))
	}
	return string(p[:at]) + numeral(number)
}

// OpID names the n-th operation of the post in the shared or in the private log of a job, from 0.
func (p Post) OpID(private bool, n int) string {
	class := "s"
	if private {
		class = "p"
	}
	return class + numeral(n) + p.Mark()
}

// Mark is what the ids of all operations of the post end with.
func (p Post) Mark() string { return string(p[:idLength-1-idTail]) }

// PostMark returns the [Post.Mark] in the id of an operation, "" for an id that no post can have given.
func PostMark(opID string) string {
	if len(opID) != idLength || opID[0] != 's' && opID[0] != 'p' {
		return ""
	}
	return opID[1+idTail:]
}

// numeral writes a number in idTail letters.
func numeral(n int) string {
	n %= mostOfPost
	letters := make([]byte, idTail)
	for i := range letters {
		letters[i] = idLetters[n>>(5*(idTail-1-i))&31]
	}
	return string(letters)
}

func valueOf(letter byte) int {
	switch {
	case letter >= 'a' && letter <= 'z':
		return int(letter - 'a')
	case letter >= '2' && letter <= '7':
		return int(letter-'2') + 26
	}
	return -1
}
