package pattern

// Name is the letter of a kind: A for the first, then B to Z, AA, AB and so on.
func Name(kind int) string {
	name := ""
	for kind++; kind > 0; kind /= 26 {
		kind--
		name = string(rune('A'+kind%26)) + name
	}
	return name
}

// Run is a number of clusters of one kind in a row.
type Run struct{ Kind, Count int }

// Runs shortens a sequence of kinds: A A B A becomes 2 of A, 1 of B, 1 of A.
func Runs(sequence []int) []Run {
	var runs []Run
	for _, kind := range sequence {
		if last := len(runs) - 1; last >= 0 && runs[last].Kind == kind {
			runs[last].Count++
		} else {
			runs = append(runs, Run{kind, 1})
		}
	}
	return runs
}

// Repeats finds the shortest unit that a sequence repeats, the last time perhaps not to its end: A B C A B C A is two
// times A B C and a rest of A. Without a unit that is there twice, unit is the sequence, times is 1 and rest is empty.
// The result shares the sequence's memory.
func Repeats(sequence []int) (unit []int, times int, rest []int) {
	n := len(sequence)
	if n == 0 {
		return nil, 0, nil
	}
	ends := make([]int, n) // ends[i]: how many at the start are also the last before i+1
	for i, same := 1, 0; i < n; i++ {
		for same > 0 && sequence[i] != sequence[same] {
			same = ends[same-1]
		}
		if sequence[i] == sequence[same] {
			same++
		}
		ends[i] = same
	}
	period := n - ends[n-1]
	if times = n / period; times < 2 {
		return sequence, 1, nil
	}
	return sequence[:period], times, sequence[times*period:]
}
