package fmt

// Layout says what layout.go reads of a value's type, for the test that holds it against reflect.
func Layout(value any) (text string, kindNumber uint8, size uintptr, direct bool) {
	t, _ := take(value)
	return t.String(), uint8(t.kind), t.size, t.direct()
}
