package picture_test

import (
	"encoding/binary"
	"hash/fnv"
	"math"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"

	"garlandry/calc/cluster"
	"garlandry/calc/picture"
)

// TestPicturesAreTheSameOnEveryMachine compares fingerprints of all bits with those of an amd64 of 2026. Server and
// phone run it too.
func TestPicturesAreTheSameOnEveryMachine(t *testing.T) {
	push := cluster.StandardPush()
	garland := strung(t, line(5000), mixed(t, 25))
	column, _ := picture.Column(mixed(t, 20), push, 2, 0)
	bouquets, _ := picture.Bouquets(heaps["many sizes"], 2, true)
	for name, c := range map[string]struct {
		balloons []picture.Balloon
		wanted   string
	}{
		"garland":  {garland, "373b0566c648e9b7"},
		"accents":  {picture.On(garland, nil, 0, 1, picture.Equal(recipe(t, "2x5@4.5"), 12)), "23dd3412c2a5fbf3"},
		"column":   {column, "45d1781dcae1778b"},
		"wall":     {picture.Wall(mixed(t, 20), push, 3, 600), "742c7ac2167fb7a4"},
		"heap":     {picture.Heap(heaps["hundred"]), "c85f25438c238d34"},
		"bouquets": {bouquets, "f4f41fa3a16804d6"},
		"digits":   {picture.Digits([]picture.Digit{{seven, 58}}, 114), "fcdbebb84909a155"},
	} {
		assert.Equal(t, c.wanted, fingerprint(c.balloons), name)
	}
}

func fingerprint(balloons []picture.Balloon) string {
	hash := fnv.New64a()
	for _, b := range balloons {
		at := []float64{b.XMM, b.YMM, b.DepthMM, b.RadiusMM, float64(b.Cluster), float64(b.Part), float64(b.Slot)}
		for _, v := range at {
			var bits [8]byte
			binary.LittleEndian.PutUint64(bits[:], math.Float64bits(v))
			hash.Write(bits[:])
		}
	}
	return strconv.FormatUint(hash.Sum64(), 16)
}
