package cluster

import (
	"strconv"
	"strings"
)

// size is the little that recipes need of a balloon size: how far it is usually
// inflated for décor and what it holds full, in inches.
// Common practice, no source; the same figures as calc/latex.
type size struct {
	nominalIn         int
	decorToIn, fullIn float64
}

var sizes = [...]size{
	{5, 4.5, 5},
	{9, 8, 9},
	{10, 9, 10},
	{11, 10, 11},
	{12, 10, 12},
	{16, 14, 16},
	{18, 16, 17},
	{24, 22, 24},
	{36, 33, 36},
}

func findSize(nominalIn int) (size, bool) {
	for _, s := range sizes {
		if s.nominalIn == nominalIn {
			return s, true
		}
	}
	return size{}, false
}

func sizeList() string {
	names := make([]string, len(sizes))
	for i, s := range sizes {
		names[i] = strconv.Itoa(s.nominalIn)
	}
	return strings.Join(names, ", ")
}
