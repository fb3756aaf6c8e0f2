package calc_test

import (
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

var onePlural = regexp.MustCompile(
	`(^|[ (])1 (sections|clusters|balloons|11-inch balloons|strings|parts|trips|bags|joints|layers|lines)\b`,
)

// TestOneIsNotMany checks that no text says "1 sections".
func TestOneIsNotMany(t *testing.T) {
	for _, call := range [][]string{
		{"car", "cargo=180x110x85cm", "sections=1", "section_length=1m", "clusters=1", "balloons=1 x 11@10"},
		{"car", "cargo=180x110x85cm", "door=10x10cm", "sections=1", "section_length=1m", "clusters=1", "balloons=1 x 11@10"},
		{"wall", "width=30cm", "height=20cm", "recipe=1x11@10"},
		{"column", "height=20cm", "recipe=1x11@10"},
		{"clusters", "length=5cm", "recipe=1x11@10"},
		{"dip", "span=2m", "loads=sign 1kg", "tube_outer=28", "tube_wall=1.5", "joints=1"},
		{"line", "weight=1kg", "strength=90 N", "points=1"},
		{"bags", "need=1", "bags=100:9.90"},
	} {
		result := compute(t, call[0], call[1:]...)
		said := append([]string(nil), result.Notes...)
		for _, line := range result.Working {
			said = append(said, line.Label, line.Formula, line.Value)
		}
		if picture := result.Picture(); picture != nil {
			said = append(said, picture.Title, picture.Note)
		}
		for _, text := range said {
			assert.NotRegexp(t, onePlural, text, "%v", call)
		}
	}
	nothing := compute(t, "split", "total=0", "weights=coral 1, sand 2")
	assert.NotContains(t, strings.Join(nothing.Notes, " "), "too few", "there is nothing to split")
}
