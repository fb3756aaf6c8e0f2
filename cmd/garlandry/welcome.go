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

// ownerLink makes an owner link to print at a start: while the owner has no device, for a demo, and for somebody who
// sits at a terminal. A link opens everything for a week, and what a service prints lies in the system's log; so else
// it is empty, and the invite command makes one. It is empty on a full disk as well, where none can be made.
func (c *serveCommand) ownerLink(s streams, data *store.Store) (string, error) {
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

// isTerminal reports whether somebody reads along, rather than a file or a service manager.
func isTerminal(out io.Writer) bool {
	file, isFile := underneath(out).(*os.File)
	return isFile && isatty.IsTerminal(file.Fd())
}

// tellData says what a person has to know of the data: what was mended, and that nothing can be saved.
func tellData(s streams, data *store.Store) {
	note(s, data.Repairs()...)
	if err := data.Trouble(); err != nil {
		say(s.out, "Take care: nothing can be saved: %v. Pages can be read, and what phones tick stays on them. "+
			"Make room on the disk; nothing else is needed.\n", err)
	}
}

// note prints sentences about the data, those that are empty left out.
func note(s streams, words ...string) {
	for _, word := range words {
		if word != "" {
			say(s.out, "Note: %s\n", word)
		}
	}
}

// welcome prints where the app is, the owner link, and the link as a code to scan; without a link, how to get one. Of
// several addresses the first is this machine's own; the code leads to the last, which a phone can reach.
func welcome(out io.Writer, addresses []string, link, dir string) {
	last := addresses[len(addresses)-1]
	for i, address := range addresses {
		say(out, pick(i == 0, "\nGarlandry is at   %s\n", "                  %s\n"), address)
	}
	say(out, "Your data is in   %s\n\n", dir)
	if link == "" {
		say(out, "For an owner link, to let in one more device of yours: garlandry invite --data %s\n\n", dir)
	} else {
		say(out, "Open this owner link once, on your phone or in your browser (it works for a week, one time):"+
			"\n\n    %s\n\n", addresses[0]+link)
	}
	if len(addresses) > 1 && link != "" {
		say(out, "From another device in this network it is:\n\n    %s\n\n", last+link)
	}
	if needsHTTPS(last) {
		fmt.Fprint(
			out,
			"Phones can use the app without signal only over https: give --tls-cert and --tls-key,\n"+
				"or run it behind an https proxy and give its address as --base-url.\n\n",
		)
	}
	if code, err := qr.Encode(last+link, qr.L); err == nil && link != "" { // a link too long for a code can still be typed
		printQR(underneath(out), code)
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
