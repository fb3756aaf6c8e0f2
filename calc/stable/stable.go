// Package stable sorts lists of any type with one compiled sort: slices.SortStableFunc is compiled anew for each type,
// 8 kB of the running core each. Where a sort is a good part of the work, slices.SortStableFunc is quicker.
package stable

import "sort"

// Sort orders a list by a comparison, which returns a negative number where a comes before b. Equals keep their order.
func Sort[T any](list []T, compare func(a, b T) int) {
	sort.SliceStable(list, func(i, j int) bool { return compare(list[i], list[j]) < 0 })
}
