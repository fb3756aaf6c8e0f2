package look

// Box is where a piece is in a room.
type Box struct{ Left, Right, Bottom, Top float64 }

// Boxes returns where [Beside] puts pieces.
func Boxes(pieces []*Look) []Box {
	var boxes []Box
	for i, placed := range places(pieces) {
		up := placed.top - pieces[i].TopMM
		boxes = append(boxes, Box{placed.left, placed.right, pieces[i].BottomMM + up, placed.top})
	}
	return boxes
}
