package rcpsp

// profile is what is free at each unit of time. Four resources share a word, a
// lane of 16 bits each; the top bit of a lane stays clear, so that one subtraction
// compares all four.
type profile struct {
	words int      // for each unit of time
	free  []uint64 // words x horizon
	used  int      // units of time that are not all free
}

const topBits = 0x8000_8000_8000_8000

// pack lays out needs and capacities in lanes.
func (p *Project) pack() {
	words := max(1, (len(p.capacity)+3)/4)
	lanes := func(amounts []int) []uint64 {
		packed := make([]uint64, words)
		for r, amount := range amounts {
			packed[r/4] |= uint64(amount) << (16 * (r % 4))
		}
		return packed
	}
	p.full = lanes(p.capacity)
	for _, needs := range p.needs {
		p.packed = append(p.packed, lanes(needs))
	}
	p.profile = profile{words: words, free: make([]uint64, words*(p.horizon+1))}
	p.profile.used = p.horizon + 1
}

// clear makes everything free.
func (f *profile) clear(full []uint64) {
	for at := 0; at < f.used; at++ {
		copy(f.free[at*f.words:], full)
	}
	f.used = 0
}

// earliest is the first time from which the needs are free for so long.
func (f *profile) earliest(from, duration int, needs []uint64) int {
	if duration == 0 {
		return from
	}
	run := 0
	if f.words == 1 {
		need := needs[0]
		for at := from; ; at++ {
			if at >= f.used {
				return at - run
			}
			if ((f.free[at]|topBits)-need)&topBits != topBits {
				run = 0
				continue
			}
			if run++; run == duration {
				return at - duration + 1
			}
		}
	}
	for at := from; ; at++ {
		if at >= f.used {
			return at - run
		}
		if !f.fits(at, needs) {
			run = 0
			continue
		}
		if run++; run == duration {
			return at - duration + 1
		}
	}
}

func (f *profile) fits(at int, needs []uint64) bool {
	for w, need := range needs {
		if ((f.free[at*f.words+w]|topBits)-need)&topBits != topBits {
			return false
		}
	}
	return true
}

// take uses the needs for so long.
func (f *profile) take(from, duration int, needs []uint64) {
	for at := from; at < from+duration; at++ {
		for w, need := range needs {
			f.free[at*f.words+w] -= need
		}
	}
	f.used = max(f.used, from+duration)
}
