//go:build js && wasm

// Ondevice is the app on the phone: the same pages, plan and calculations as the server's, compiled for a web worker.
// It only connects [device.Core] to the page's messages and to the storage and network of the worker's JavaScript.
package main

import (
	"strings"
	"syscall/js"
	"time"

	"garlandry/pwa/device"
)

func main() {
	host := newHost()
	core, err := device.Open(device.Options{
		Build:    host.Get("build").String(),
		Role:     host.Get("role").String(),
		Disk:     host,
		Wire:     host,
		Page:     host,
		Now:      func() int64 { return time.Now().UnixMilli() },
		Zone:     host.zone,
		Home:     host.text("home"),
		Language: host.text("language"),
		OverHTTP: !js.Global().Get("isSecureContext").Truthy(),
		NewID:    func() string { return device.NewID(host.random(16)) },
		Jitter:   host.randomFloat,
		Later:    func(ms int64, do func()) { time.AfterFunc(time.Duration(ms)*time.Millisecond, do) },
		Go:       func(work func()) { go work() },
		Pause:    host.pause,

		SetAside: strings.Fields(host.Get("aside").String()),
		Working:  func(job string) { host.Call("working", job) },
		Stopped:  func(job, why string) { host.Call("stopped", job, why) },
	})
	if err != nil {
		host.fail(err)
		return
	}
	core.Run(host.inbox())
}
