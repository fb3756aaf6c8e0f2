package job

import "encoding/json"

// MaxTallyKind is how many bytes the key of a kind in a tally may have.
const MaxTallyKind = 1000

// ValidTallyKind reports whether a text can be the key of a kind of what a tally counts: printable and without spaces.
func ValidTallyKind(key string) bool {
	for _, c := range []byte(key) {
		if c <= ' ' || c > '~' {
			return false
		}
	}
	return key != "" && len(key) <= MaxTallyKind
}

// CountOf makes the change that adds a number of a kind to a tally. A build that does not know kinds adds the same
// number.
func CountOf(entity string, delta int64, kind string) Change {
	c := Put(entity, "", kind)
	c.Kind, c.Delta = Add, delta
	return c
}

// kindIn reads the key of a kind from the value of an addition, "" if it has none.
func kindIn(value json.RawMessage) (key string) {
	if len(value) > MaxTallyKind+2 || json.Unmarshal(value, &key) != nil || !ValidTallyKind(key) {
		return ""
	}
	return key
}

// ByKind returns how many of each kind were counted, for different keys, none below 0 and together at most the total.
// The rest of the total is of no kind or of others. A count by eye keeps the kinds as they were; if it says fewer, the
// last keys lose first, and so they do where more was taken off the total without a kind than was added.
func (t *Tally) ByKind(keys []string) []int {
	sums := make([]int64, len(keys))
	count, more := t.Standing()
	if count != nil {
		live, added := t.Live(), 0
		for i := range live {
			if added < len(more) && more[added].ID == live[i].ID {
				added++
				continue
			}
			live[i].addTo(sums, keys)
		}
		cut(sums, count.N)
	}
	for i := range more {
		more[i].addTo(sums, keys)
	}
	cut(sums, t.Total())
	list := make([]int, len(sums))
	for i, n := range sums {
		list[i] = int(n)
	}
	return list
}

// addTo adds an entry to the sum of its kind.
func (e *TallyEntry) addTo(sums []int64, keys []string) {
	for i, key := range keys {
		if key == e.Of {
			sums[i] += e.Delta
		}
	}
}

// cut raises numbers to 0 and takes from the last ones until they sum to at most the total.
func cut(list []int64, most int64) {
	for i := range list {
		list[i] = min(max(0, list[i]), max(0, most))
		most -= list[i]
	}
}
