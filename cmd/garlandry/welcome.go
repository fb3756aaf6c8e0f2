package main

import (
	"fmt"
	"io"

	"rsc.io/qr"
)

// welcome prints where the app is, the owner link, and the link as a code to scan.
func welcome(out io.Writer, address, link, dir string) {
	fmt.Fprintf(out, "\nGarlandry is at   %s\nYour data is in   %s\n\nOpen this owner link once, on your phone or in your browser (it works for a week, one time):\n\n    %s\n\n", address, dir, link)
	code, err := qr.Encode(link, qr.L)
	if err == nil { // a link too long for a code can still be typed
		printQR(out, code)
	}
	fmt.Fprintln(out, "Stop with Ctrl-C.")
}

// printQR draws two modules to a character, dark on light, with the quiet zone that ISO/IEC 18004 asks for.
func printQR(out io.Writer, code *qr.Code) {
	const quiet = 4
	dark := func(x, y int) bool { return x >= 0 && y >= 0 && x < code.Size && y < code.Size && code.Black(x, y) }
	for y := -quiet; y < code.Size+quiet; y += 2 {
		line := "    \x1b[30;107m"
		for x := -quiet; x < code.Size+quiet; x++ {
			line += map[[2]bool]string{{false, false}: " ", {true, false}: "▀", {false, true}: "▄", {true, true}: "█"}[[2]bool{dark(x, y), dark(x, y+1)}]
		}
		fmt.Fprintln(out, line+"\x1b[0m")
	}
	fmt.Fprintln(out)
}
