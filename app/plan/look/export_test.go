package look

// Clear reports whether two areas do not overlap.
func Clear(a, b Area) bool {
	return a.LeftMM >= b.RightMM || b.LeftMM >= a.RightMM || a.BottomMM >= b.TopMM || b.BottomMM >= a.TopMM
}
