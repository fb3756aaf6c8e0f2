package rng

import (
	"hash/fnv"

	"garlandry/calc/exact"
)

// Source is SplitMix64 (Steele, Lea and Flood, "Fast splittable pseudorandom number generators", OOPSLA 2014). Its
// state is one word. The zero value is the stream of seed 0.
type Source struct{ state uint64 }

// New returns the stream of a seed.
func New(seed uint64) Source { return Source{state: seed} }

// Named returns a stream for a name under a seed. Each name has its own stream: leaving one name out does not shift
// the numbers of the others. The name is hashed by FNV-1a.
func Named(seed uint64, name string) Source {
	hash := fnv.New64a()
	hash.Write([]byte(name))
	return Source{state: mix(seed) ^ hash.Sum64()}
}

func mix(z uint64) uint64 {
	z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9
	z = (z ^ (z >> 27)) * 0x94d049bb133111eb
	return z ^ (z >> 31)
}

// Next returns 64 random bits.
func (s *Source) Next() uint64 {
	s.state += 0x9e3779b97f4a7c15
	return mix(s.state)
}

// Below returns a whole number from 0 to n-1, with a bias under n/2^32. n must be from 1 to 2^32.
func (s *Source) Below(n int) int {
	return int((s.Next() >> 32) * uint64(n) >> 32)
}

// Unit returns a number uniform between 0 and 1, never 0 or 1 itself.
func (s *Source) Unit() float64 {
	return (float64(s.Next()>>11) + 0.5) * (1.0 / (1 << 53))
}

// Normal returns a standard normal number, by inverting the distribution.
func (s *Source) Normal() float64 { return exact.Quantile(s.Unit()) }
