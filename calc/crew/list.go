package crew

// These helpers make the compiled code smaller: a call takes a fraction of the code that make and append compile to.

func ints(n int) []int { return make([]int, n) }

func floats(n int) []float64 { return make([]float64, n) }

func push(list []int, number int) []int { return append(list, number) }

// listed reports whether a text is in a list.
func listed(list []string, text string) bool {
	for i := range list {
		if list[i] == text {
			return true
		}
	}
	return false
}
