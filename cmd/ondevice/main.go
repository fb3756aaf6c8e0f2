//go:build js && wasm

// Ondevice is the app on the phone: the same pages, plan and calculations as the server's, compiled for a web worker.
// It is wiring only: messages from the page go to [device.Core], storage and network come from the worker's JavaScript.
package main

import (
	"encoding/binary"
	"os"
	"time"

	"garlandry/pwa/device"
)

func main() {
	host := newHost()
	core, err := device.Open(device.Options{
		Build: argument(1),
		Role:  argument(2),
		Disk:  host,
		Wire:  host,
		Page:  host,
		Now:   func() int64 { return time.Now().UnixMilli() },
		Zone:  host.zone,
		Home:  host.home(),
		NewID: func() string {
			return device.NewID(host.random(16))
		},
		Jitter: func() float64 { return float64(binary.LittleEndian.Uint32(host.random(4))) / (1 << 32) },
		Later:  func(ms int64, ring func()) { time.AfterFunc(time.Duration(ms)*time.Millisecond, ring) },
		Go:     func(work func()) { go work() },
	})
	if err != nil {
		host.fail(err)
		return
	}
	core.Run(host.inbox())
}

// argument gives what the worker's script started the core with: the build, and for whom the page was drawn.
func argument(n int) string {
	if len(os.Args) > n {
		return os.Args[n]
	}
	return ""
}
