package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
)

// workload takes the same work wherever it runs, so that its time says how slow a thread is.
const workload = `(() => { const start = performance.now(); let x = 0; for (let i = 0; i < 1e7; i++) x = (x + i * i) % 7919; return performance.now() - start })()`

// brake slows down the worker threads of a browser that this test has started. The browser's own throttling reaches only
// the thread of the page (a worker's target refuses the command), so the kernel holds the workers to a share of a core.
// It needs root and the cpu controller of control groups, version 1, which takes single threads.
type brake struct {
	group string
	stop  chan struct{}
	done  chan struct{}
}

// brakeWorkers lets workers have one slice in so many. It says why where that cannot be.
func brakeWorkers(t *testing.T, times int) (*brake, error) {
	t.Helper()
	b := &brake{group: fmt.Sprintf("/sys/fs/cgroup/cpu/garlandry-%d", os.Getpid()), stop: make(chan struct{}), done: make(chan struct{})}
	if err := os.Mkdir(b.group, 0o755); err != nil {
		return nil, err
	}
	const slice = 1000 // us, the least the kernel grants
	for name, value := range map[string]int{"cpu.cfs_period_us": slice * times, "cpu.cfs_quota_us": slice} {
		if err := os.WriteFile(filepath.Join(b.group, name), []byte(strconv.Itoa(value)), 0o644); err != nil {
			_ = os.Remove(b.group)
			return nil, err
		}
	}
	go b.catch()
	t.Cleanup(b.release)
	return b, nil
}

// catch puts every worker thread that appears into the group.
func (b *brake) catch() {
	defer close(b.done)
	tick := time.NewTicker(3 * time.Millisecond)
	defer tick.Stop()
	caught := map[string]bool{}
	for {
		select {
		case <-b.stop:
			return
		case <-tick.C:
		}
		for _, process := range family(os.Getpid()) {
			threads, _ := os.ReadDir(fmt.Sprintf("/proc/%d/task", process)) // it may have gone meanwhile
			for _, thread := range threads {
				if caught[thread.Name()] {
					continue
				}
				name, _ := os.ReadFile(fmt.Sprintf("/proc/%d/task/%s/comm", process, thread.Name()))
				if strings.HasPrefix(string(name), "DedicatedWorker") || strings.HasPrefix(string(name), "ServiceWorker") {
					caught[thread.Name()] = os.WriteFile(filepath.Join(b.group, "tasks"), []byte(thread.Name()), 0o644) == nil
				}
			}
		}
	}
}

// release lets every thread run freely again.
func (b *brake) release() {
	close(b.stop)
	<-b.done
	tasks, _ := os.ReadFile(filepath.Join(b.group, "tasks"))
	for _, thread := range strings.Fields(string(tasks)) {
		_ = os.WriteFile("/sys/fs/cgroup/cpu/tasks", []byte(thread), 0o644) // it may have gone meanwhile
	}
	_ = os.Remove(b.group) // an empty group left behind harms nobody
}

// family lists the processes below one, itself left out.
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

// workerTakes gives the milliseconds that the workload takes in the page's worker.
func (p *phone) workerTakes() float64 {
	p.t.Helper()
	targets, err := chromedp.Targets(p.ctx)
	p.check(err)
	for _, target := range targets {
		if target.Type == "worker" {
			ctx, cancel := chromedp.NewContext(p.ctx, chromedp.WithTargetID(target.TargetID), chromedp.WithDetachOnCancel())
			defer cancel()
			took, err := chromedp.Run(ctx, chromedp.Evaluate[float64](workload))
			p.check(err)
			return took
		}
	}
	p.t.Fatal("the page has no worker")
	return 0
}

// pageTakes gives the milliseconds that the workload takes in the page itself.
func (p *phone) pageTakes() float64 {
	p.t.Helper()
	took, err := chromedp.Run(p.ctx, chromedp.Evaluate[float64](workload))
	p.check(err)
	return took
}
