package pattern

// bands writes the balloons of each size in one row by colour and cuts it into clusters.
func (l *layout) bands() {
	for i, size := range l.Sizes {
		place := 0
		for c, n := range size.Colours {
			for ; n > 0; n-- {
				l.counts[place/size.Each*l.width+l.firsts[i]+c]++
				place++
			}
		}
	}
}

// fade changes from one colour to the next in a straight line, as far to either side of where their bands would meet
// as the narrower band reaches. Each colour then keeps its count. Rounding errors carry forward: what is rounded is how
// many balloons a colour and those before it have had so far.
func (l *layout) fade() {
	for i, size := range l.Sizes {
		var used []int
		for c, n := range size.Colours {
			if n > 0 {
				used = append(used, c)
			}
		}
		upTo := make([]int, l.Clusters) // balloons of this colour and those before it, by place
		for q := range upTo {
			upTo[q] = size.Each
		}
		border := size.Each * l.Clusters
		for at := len(used) - 1; at >= 0; at-- {
			border -= size.Colours[used[at]]
			given, wide := 0, 0
			if at > 0 {
				wide = min(reach(size, used, at-1), reach(size, used, at))
			}
			for q, before := range upTo {
				have := min(before, faded(size.Each*(q+1), border, wide)-given)
				given += have
				upTo[q] = have
				l.counts[q*l.width+l.firsts[i]+used[at]] = before - have
			}
		}
	}
}

// reach is twice how far a colour may fade to one side, in balloons.
func reach(size Size, used []int, at int) int {
	n := size.Colours[used[at]]
	if at == 0 || at == len(used)-1 {
		return 2 * n
	}
	return n
}

// faded is how many of the first x balloons come before a border, rounded to the nearest: all of them until wide/2
// before it, then ever fewer, and none from wide/2 behind it.
func faded(x, border, wide int) int {
	in := 2*(x-border) + wide // twice the balloons since the change began
	switch {
	case in <= 0:
		return x
	case in >= 2*wide:
		return border
	}
	return (8*wide*x - in*in + 4*wide) / (8 * wide)
}

// spiral gives each colour as many whole stripes as it fills. What is left fills the other stripes one after the other.
func (l *layout) spiral() {
	for i, size := range l.Sizes {
		slots := make([]int, size.Each*l.Clusters)
		stripes, mixed, filled := 0, 0, 0
		put := func(stripe, from, n, colour int) {
			for q := from; q < from+n; q++ {
				slots[q*size.Each+stripe] = colour
				l.counts[q*l.width+l.firsts[i]+colour]++
			}
		}
		for c, n := range size.Colours {
			for ; n >= l.Clusters; n -= l.Clusters {
				put(stripes, 0, l.Clusters, c)
				stripes++
			}
			for n > 0 {
				if filled == 0 {
					mixed = stripes
					stripes++
				}
				some := min(n, l.Clusters-filled)
				put(mixed, filled, some, c)
				n -= some
				filled = (filled + some) % l.Clusters
			}
		}
		l.slots = append(l.slots, slots)
	}
}

// wrap writes the balloons of each size in one row by colour and deals it out cluster by cluster, round and round. This
// is the wrap-around rule (McNaughton, "Scheduling with deadlines and loss functions", Management Science 6, 1959):
// every cluster is within one balloon of the even mixture, and each size adds at most colours - 1 kinds.
func (l *layout) wrap() {
	for i, size := range l.Sizes {
		q := 0
		for c, n := range size.Colours {
			for ; n > 0; n-- {
				l.counts[q*l.width+l.firsts[i]+c]++
				if q++; q == l.Clusters {
					q = 0
				}
			}
		}
	}
}

// whole makes clusters of one colour: first those in which all sizes agree, then those in which each size has one
// colour of its own, then mixed ones of what is left.
func (l *layout) whole() {
	var agreed []int
	sum := 0
	for c := 0; len(l.Sizes) > 0 && c < len(l.Sizes[0].Colours); c++ {
		least := l.Clusters
		for _, size := range l.Sizes {
			if c >= len(size.Colours) {
				least = 0
			} else {
				least = min(least, size.Colours[c]/size.Each)
			}
		}
		agreed = append(agreed, least)
		sum += least
	}
	for i, size := range l.Sizes {
		place, own := 0, sum*size.Each
		put := func(from, n, colour int) int {
			for ; n > 0; n-- {
				l.counts[from/size.Each*l.width+l.firsts[i]+colour]++
				from++
			}
			return from
		}
		rest := make([]int, len(size.Colours))
		for c, n := range size.Colours {
			same := 0
			if c < len(agreed) {
				same = agreed[c] * size.Each
			}
			rest[c] = n % size.Each
			place = put(place, same, c)
			own = put(own, n-same-rest[c], c)
		}
		for c, n := range rest {
			own = put(own, n, c)
		}
	}
}
