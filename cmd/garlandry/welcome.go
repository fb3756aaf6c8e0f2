package main

import (
	"fmt"
	"io"
	"net"
	"net/url"
	"strings"

	"rsc.io/qr"
)

// welcome prints where the app is, the owner link, and the link as a code to scan. Of several addresses the first is this
// machine's own; the code leads to the last, which a phone can reach.
func welcome(out io.Writer, addresses []string, link, dir string) {
	last := addresses[len(addresses)-1]
	fmt.Fprintf(out, "\nGarlandry is at   %s\n", strings.Join(addresses, "\n                  "))
	fmt.Fprintf(out, "Your data is in   %s\n\nOpen this owner link once, on your phone or in your browser (it works for a week, one time):\n\n    %s\n\n", dir, addresses[0]+link)
	if len(addresses) > 1 {
		fmt.Fprintf(out, "From another device in this network it is:\n\n    %s\n\n", last+link)
	}
	if needsHTTPS(last) {
		fmt.Fprint(out, "Phones keep the app for use without a signal only over https: give --tls-cert and --tls-key, or put a proxy that speaks https in front and give its address as --base-url.\n\n")
	}
	code, err := qr.Encode(last+link, qr.L)
	if err == nil { // a link too long for a code can still be typed
		printQR(out, code)
	}
	fmt.Fprintln(out, "Stop with Ctrl-C.")
}

// needsHTTPS reports whether browsers take the address for unsafe: plain http, and not on the same machine.
func needsHTTPS(address string) bool {
	u, err := url.Parse(address)
	if err != nil || u.Scheme != "http" {
		return false
	}
	ip := net.ParseIP(u.Hostname())
	return u.Hostname() != "localhost" && (ip == nil || !ip.IsLoopback())
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
