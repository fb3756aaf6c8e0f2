package count

import (
	"slices"
	"strconv"
	"strings"

	"garlandry/app/job"
)

// Key says what one cluster of the kind is made of, whatever its letter: "11/coral/2+11/sand/1+18/coral/2" is two
// coral and one sand 11-inch and two coral 18-inch, its parts sorted as texts. Where balloons of one nominal size are
// inflated to several, it says "11@10". Keys are stored with progress and designs: they are forever. It is empty for a
// kind whose key would be longer than [job.MaxTallyKind].
func (k *ClusterKind) Key() string {
	parts := make([]string, len(k.By))
	for i := range k.By {
		b := &k.By[i]
		parts[i] = strconv.Itoa(b.SizeIn)
		for j := range k.By {
			if other := &k.By[j]; other.SizeIn == b.SizeIn && other.ToIn != b.ToIn {
				parts[i] += "@" + strconv.FormatFloat(b.ToIn, 'f', -1, 64)
				break
			}
		}
		parts[i] += "/" + b.Colour.ID + "/" + strconv.Itoa(b.Count)
	}
	slices.Sort(parts)
	key := strings.Join(parts, "+")
	if !job.ValidTallyKind(key) {
		return ""
	}
	return key
}

// Keys returns the key of each kind.
func (l *Laid) Keys() []string {
	keys := make([]string, len(l.Kinds))
	for i := range l.Kinds {
		keys[i] = l.Kinds[i].Key()
	}
	return keys
}

// Fill returns which clusters are made: the first ones of each kind, as many as were made of it, and then the first of
// all others until made are. By may be nil.
func (l *Laid) Fill(by []int, made int) []bool {
	filled := make([]bool, len(l.Deals))
	if len(l.Sequence) == len(filled) && len(by) == len(l.Kinds) {
		left := append([]int(nil), by...)
		for i, kind := range l.Sequence {
			if filled[i] = left[kind] > 0 && made > 0; filled[i] {
				left[kind]--
				made--
			}
		}
	}
	for i := range filled {
		if !filled[i] && made > 0 {
			filled[i] = true
			made--
		}
	}
	return filled
}
