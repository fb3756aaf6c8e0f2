package main

import (
	"errors"
	"fmt"
	"io"
	"net"
	"net/url"
	"os"
	"slices"

	"garlandry/app/seclog"
	"garlandry/app/store"
	"garlandry/pwa/address"

	"github.com/mattn/go-isatty"
	"rsc.io/qr"
)

// ownerLink returns an owner link to print at the start: while the owner has no device, for a demo, and at a terminal.
// Otherwise it returns "", because a link opens everything for a week and the output of a service goes into the
// system's log. It also returns "" on a full disk.
func (c *serveCommand) ownerLink(s stdio, data *store.Store) (string, error) {
	devices, err := data.OwnerDevices()
	if err != nil {
		return "", err
	}
	known := slices.ContainsFunc(devices, func(d store.Session) bool { return d.Closed == "" })
	if known && !c.Demo && !isTerminal(s.out) {
		return "", nil
	}
	token, err := store.Invite(data.Dir(), store.Options{})
	if errors.Is(err, store.ErrDirectory) && data.TryWrite() != nil {
		return "", nil
	}
	if err == nil {
		noteSecurity(s, data.Dir(), seclog.Event{What: seclog.InviteMade})
	}
	return address.OwnerInvite(token), err
}

// isTerminal reports whether the output is a terminal.
func isTerminal(out io.Writer) bool {
	file, isFile := underneath(out).(*os.File)
	return isFile && isatty.IsTerminal(file.Fd())
}

// printDataNotes prints what was repaired in the data and whether nothing can be saved.
func printDataNotes(s stdio, data *store.Store) {
	note(s, data.Repairs()...)
	if err := data.Trouble(); err != nil {
		say(s.out, "Take care: nothing can be saved: %v. Pages can be read, and what phones tick stays on them. "+
			"Make room on the disk; nothing else is needed.\n", err)
	}
}

// note prints those sentences that are not empty.
func note(s stdio, words ...string) {
	for _, word := range words {
		if word != "" {
			say(s.out, "Note: %s\n", word)
		}
	}
}

// welcome prints the addresses of the app, the owner link and its QR code; without a link, how to get one. The first
// address is for this machine. The code leads to the last, which a phone can reach.
func welcome(out io.Writer, addresses []string, link, dir string) {
	last := addresses[len(addresses)-1]
	for i, address := range addresses {
		say(out, pick(i == 0, "\nGarlandry is at   %s\n", "                  %s\n"), address)
	}
	say(out, "Your data is in   %s\n\n", dir)
	if link == "" {
		say(out, "To add another device of yours, make an owner link: garlandry invite --data %s\n\n", dir)
	} else {
		say(out, "Open this owner link once, on your phone or in your browser (it works for a week, one time):"+
			"\n\n    %s\n\n", addresses[0]+link)
	}
	if len(addresses) > 1 && link != "" {
		say(out, "From another device in this network:\n\n    %s\n\n", last+link)
	}
	if needsHTTPS(last) {
		fmt.Fprint(out, "Take care: this is plain http. Phones that open it need signal all the time and can't install\n"+
			"the app, and others on this network can read what they send. For https, give --tls-cert and --tls-key,\n"+
			"or run the server behind an https proxy and give its address as --base-url.\n\n")
	}
	if code, err := qr.Encode(last+link, qr.L); err == nil && link != "" { // a long link may not fit into a code
		printQR(underneath(out), code)
	}
	fmt.Fprintln(out, "Stop with Ctrl-C.")
}

// needsHTTPS reports whether browsers consider the address insecure: plain http to another machine.
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
	blocks := map[[2]bool]string{{false, false}: " ", {true, false}: "▀", {false, true}: "▄", {true, true}: "█"}
	dark := func(x, y int) bool { return x >= 0 && y >= 0 && x < code.Size && y < code.Size && code.Black(x, y) }
	for y := -quiet; y < code.Size+quiet; y += 2 {
		line := "    \x1b[30;107m"
		for x := -quiet; x < code.Size+quiet; x++ {
			line += blocks[[2]bool{dark(x, y), dark(x, y+1)}]
		}
		fmt.Fprintln(out, line+"\x1b[0m")
	}
	fmt.Fprintln(out)
}
