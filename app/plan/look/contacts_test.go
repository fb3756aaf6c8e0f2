package look

import (
	"math/rand"
	"testing"

	"garlandry/app/job"
	"garlandry/app/plan/count"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// likes counts the pairs of neighbours of one colour.
func (l *Look) likes(beside [][]int32) int {
	n := 0
	for i := range l.Balloons {
		n += l.alike(i, beside)
	}
	return n / 2
}

// Like colours of a scattered piece touch no more than 1.15 times as often as in the best of 10,000 garlands of the
// same clusters in random order, each cluster's colours in random places.
func TestLikeColoursTouchSeldom(t *testing.T) {
	const seed = 7
	random := rand.New(rand.NewSource(seed))
	for _, recipe := range []string{"2x11@10", "3x11@10", "2x11@10 + 1x18@16"} {
		t.Run(recipe, func(t *testing.T) {
			l := garlandLook(t, recipe)
			beside := l.neighbours()
			ours, best := l.likes(beside), 1<<30
			var clusters [][]int // balloons of each cluster
			for i, b := range l.Balloons {
				for len(clusters) <= b.Cluster {
					clusters = append(clusters, nil)
				}
				clusters[b.Cluster] = append(clusters[b.Cluster], i)
			}
			own := make([]int, len(l.Balloons))
			for i := range l.Balloons {
				own[i] = l.Balloons[i].Colour
			}
			for range 10_000 {
				shuffle(random, l, clusters, own)
				best = min(best, l.likes(beside))
			}
			t.Logf("seed %d: %d like pairs, best of 10,000 random ones %d", seed, ours, best)
			assert.LessOrEqual(t, float64(ours), 1.15*float64(best))
		})
	}
}

// shuffle gives the clusters each other's colours at random, size by size.
func shuffle(random *rand.Rand, l *Look, clusters [][]int, own []int) {
	for to, from := range random.Perm(len(clusters)) {
		bySize := map[int][]int{}
		for _, i := range clusters[from] {
			bySize[l.Balloons[i].SizeIn] = append(bySize[l.Balloons[i].SizeIn], own[i])
		}
		for _, size := range []int{11, 18} {
			list := bySize[size]
			random.Shuffle(len(list), func(a, b int) { list[a], list[b] = list[b], list[a] })
		}
		for _, i := range clusters[to] {
			size := l.Balloons[i].SizeIn
			l.Balloons[i].Colour, bySize[size] = bySize[size][0], bySize[size][1:]
		}
	}
}

// garlandLook returns a garland of four colours, its balloons as they were placed.
func garlandLook(t *testing.T, recipe string) *Look {
	t.Helper()
	changes := []job.Change{job.Put("piece/it", "name", "It"), job.Put("piece/it", "kind", "garland"),
		job.Put("piece/it", "length_mm", 6000), job.Put("piece/it", "recipe", recipe), job.Put("piece/it", "accents", 0),
		job.Put("piece/it", "colours", []job.Share{{Colour: "a", Weight: 3}, {Colour: "b", Weight: 2},
			{Colour: "c", Weight: 2}, {Colour: "d", Weight: 2}})}
	for _, id := range []string{"a", "b", "c", "d"} {
		changes = append(changes, job.Put("colour/"+id, "name", id))
	}
	d := count.New(job.Preview(changes), count.Kinds())
	require.Len(t, d.Pieces, 1)
	l := Of(&d.Pieces[0].PieceCount, FiguresOf(d))
	require.NotNil(t, l)
	return l
}
