package main

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
)

// workload is a fixed amount of work. Its time shows how slow a thread is.
const workload = `(() => { const start = performance.now(); let x = 0;
	for (let i = 0; i < 1e7; i++) x = (x + i * i) % 7919; return performance.now() - start })()`

// brake uses the kernel to limit the threads of pages and workers to a share of a core each, in a browser that this
// test has started. The browser's own throttling reaches only the page's thread, and it keeps a core busy, which on two
// cores slows down everything else. brake needs root and version 1 of the cpu control group, which accepts single
// threads.
type brake struct {
	times  int
	groups map[string]string // control group by thread; "" for none
	stop   chan struct{}
	done   chan struct{}
}

const (
	controlGroups = "/sys/fs/cgroup/cpu"
	slice         = time.Millisecond // the kernel's minimum
)

// brakePhone gives each thread of pages and workers one slice in the given number. It returns an error if that is not
// possible.
func brakePhone(t *testing.T, times int) error {
	t.Helper()
	b := &brake{times: times, groups: map[string]string{}, stop: make(chan struct{}), done: make(chan struct{})}
	trial, err := b.group("trial")
	if err != nil {
		return err
	}
	_ = os.Remove(trial) // a leftover empty group does no harm
	b.catch(family(os.Getpid()))
	go b.watch()
	t.Cleanup(b.release)
	return nil
}

// group makes a control group that runs one slice in b.times.
func (b *brake) group(name string) (string, error) {
	path := fmt.Sprintf("%s/garlandry-%d-%s", controlGroups, os.Getpid(), name)
	if err := os.Mkdir(path, 0o755); err != nil {
		return "", err
	}
	for name, value := range map[string]time.Duration{
		"cpu.cfs_period_us": slice * time.Duration(b.times), "cpu.cfs_quota_us": slice} {
		if err := os.WriteFile(filepath.Join(path, name),
			[]byte(strconv.FormatInt(value.Microseconds(), 10)), 0o644); err != nil {
			_ = os.Remove(path)
			return "", err
		}
	}
	return path, nil
}

// watch moves every new thread into its group. Finding new processes is slow, so it happens less often.
func (b *brake) watch() {
	defer close(b.done)
	tick := time.NewTicker(4 * time.Millisecond)
	defer tick.Stop()
	var processes []int
	for i := 0; ; i++ {
		select {
		case <-b.stop:
			return
		case <-tick.C:
		}
		if i%8 == 0 {
			processes = slices.DeleteFunc(family(os.Getpid()), func(process int) bool { return !rendersPages(process) })
		}
		b.catch(processes)
	}
}

func (b *brake) catch(processes []int) {
	for _, process := range processes {
		if !rendersPages(process) {
			continue
		}
		threads, _ := os.ReadDir(fmt.Sprintf("/proc/%d/task", process)) // it may have ended
		for _, thread := range threads {
			id := thread.Name()
			if _, known := b.groups[id]; known {
				continue
			}
			name, _ := os.ReadFile(fmt.Sprintf("/proc/%d/task/%s/comm", process, id))
			worker := strings.HasPrefix(string(name), "DedicatedWorker") || strings.HasPrefix(string(name), "ServiceWorker")
			if id != strconv.Itoa(process) && !worker {
				if !strings.HasPrefix(string(name), "chromium") { // not named yet; it may become a worker
					b.groups[id] = ""
				}
				continue
			}
			path, err := b.group(id)
			if err == nil && os.WriteFile(filepath.Join(path, "tasks"), []byte(id), 0o644) == nil {
				b.groups[id] = path
			}
		}
	}
}

// rendersPages reports whether a process is a renderer, which runs pages and their workers.
func rendersPages(process int) bool {
	line, _ := os.ReadFile(fmt.Sprintf("/proc/%d/cmdline", process)) // it may have ended
	return strings.Contains(string(line), "--type=renderer")
}

// release removes every thread's limit.
func (b *brake) release() {
	close(b.stop)
	<-b.done
	for id, path := range b.groups {
		if path == "" {
			continue
		}
		_ = os.WriteFile(filepath.Join(controlGroups, "tasks"), []byte(id), 0o644) // it may have ended
		_ = os.Remove(path)
	}
}

// family returns the descendants of a process, without the process itself.
func family(root int) []int {
	children := map[int][]int{}
	entries, _ := os.ReadDir("/proc")
	for _, e := range entries {
		id, err := strconv.Atoi(e.Name())
		if err != nil {
			continue
		}
		stat, err := os.ReadFile("/proc/" + e.Name() + "/stat")
		if err != nil {
			continue
		}
		after := strings.Fields(string(stat[strings.LastIndexByte(string(stat), ')')+1:]))
		if parent, err := strconv.Atoi(after[1]); err == nil {
			children[parent] = append(children[parent], id)
		}
	}
	var found []int
	for queue := children[root]; len(queue) > 0; queue = queue[1:] {
		found = append(found, queue[0])
		queue = append(queue, children[queue[0]]...)
	}
	return found
}

// workerTakes returns the milliseconds that the workload takes in the page's worker.
func (p *phone) workerTakes() float64 {
	p.t.Helper()
	ctx, leave := p.worker()
	defer leave()
	took, err := chromedp.Run(ctx, chromedp.Evaluate[float64](workload))
	p.check(err)
	return took
}

// pageTakes returns the milliseconds that the workload takes in the page itself.
func (p *phone) pageTakes() float64 {
	p.t.Helper()
	took, err := chromedp.Run(p.ctx, chromedp.Evaluate[float64](workload))
	p.check(err)
	return took
}
