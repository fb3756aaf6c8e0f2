// Package order sorts lists of anything with one compiled sort for all of them. Those of packages slices and sort are
// compiled anew for every kind of element, or bring reflection along, and weigh on the phone.
package order

// By sorts by less, whose numbers are places in the list as it came; equal elements keep their order. It may stand
// wherever sort.SliceStable does.
func By[T any](list []T, less func(i, j int) bool) {
	if inOrder(len(list), less) {
		return
	}
	came := append([]T(nil), list...)
	for to, from := range Indexes(len(list), less) {
		list[to] = came[from]
	}
}

func inOrder(n int, less func(i, j int) bool) bool {
	for i := 1; i < n; i++ {
		if less(i, i-1) {
			return false
		}
	}
	return true
}

// shortRun is how many are quicker sorted in place than by merging.
const shortRun = 8

// Indexes gives 0 to n-1 in the order that less makes of them, equal ones smaller first. It asks less about n*log2(n)
// times, and n-1 times where all are in order already.
func Indexes(n int, less func(i, j int) bool) []int {
	both := make([]int, 2*n)
	sorted, next := both[:n], both[n:]
	for i := range sorted {
		sorted[i] = i
		for at := i; at%shortRun > 0 && less(i, sorted[at-1]); at-- {
			sorted[at], sorted[at-1] = sorted[at-1], i
		}
	}
	for run := shortRun; run < n; run *= 2 {
		for from := 0; from < n; from += 2 * run {
			to := min(from+2*run, n)
			merge(next[from:to], sorted[from:to], min(run, to-from), less)
		}
		sorted, next = next, sorted
	}
	return sorted
}

// merge writes two sorted runs, the second of which begins at middle, as one.
func merge(into, runs []int, middle int, less func(i, j int) bool) {
	if middle == len(runs) || !less(runs[middle], runs[middle-1]) {
		copy(into, runs)
		return
	}
	left, right := 0, middle
	for at := range into {
		if right == len(runs) || left < middle && !less(runs[right], runs[left]) {
			into[at] = runs[left]
			left++
		} else {
			into[at] = runs[right]
			right++
		}
	}
}

// Strings sorts by bytes, smallest first.
func Strings(list []string) {
	By(list, func(i, j int) bool { return list[i] < list[j] })
}

// Ints sorts whole numbers, smallest first.
func Ints(list []int) {
	By(list, func(i, j int) bool { return list[i] < list[j] })
}

// Float64s sorts numbers, smallest first. None may be NaN.
func Float64s(list []float64) {
	By(list, func(i, j int) bool { return list[i] < list[j] })
}
