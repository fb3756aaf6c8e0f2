// Package order sorts plain lists with one compiled sort for all of them. The generic sorts of package slices, which
// sort.Strings and its kin call, are compiled anew for every kind of element and weigh on the phone.
package order

import "sort"

// Strings sorts by bytes, smallest first.
func Strings(list []string) {
	sort.SliceStable(list, func(i, j int) bool { return list[i] < list[j] })
}

// Ints sorts whole numbers, smallest first.
func Ints(list []int) {
	sort.SliceStable(list, func(i, j int) bool { return list[i] < list[j] })
}

// Float64s sorts numbers, smallest first. None may be NaN.
func Float64s(list []float64) {
	sort.SliceStable(list, func(i, j int) bool { return list[i] < list[j] })
}
