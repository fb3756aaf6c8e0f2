package calc

// drawBar shows counts as parts of one bar, with lengths by their shares of the sum, each with its number in it and a
// name under it. It returns nil if all are 0.
func (v Values) drawBar(title string, counts []int, names []string) *Drawing {
	sum := 0
	for _, n := range counts {
		sum += n
	}
	s := v.sketch()
	left := 0.0
	for i, n := range counts {
		if n == 0 {
			continue
		}
		width := float64(n) / float64(sum) * 1000
		s.box(RoleBox, left, 0, width, 120)
		s.text(left+width/2, 60, "{0}", float64(n))
		s.text(left+width/2, -40, names[i])
		left += width
	}
	drawing := s.drawing(title)
	if drawing != nil {
		drawing.Note = "The bar is as long as the total, whatever it is."
	}
	return drawing
}
