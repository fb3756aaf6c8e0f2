//go:build !js

package browsertest

import (
	"bytes"
	"os/exec"
	"sync"
	"time"
)

// process is a program that a test started.
type process struct {
	command *exec.Cmd
	output  *notes
	ended   chan struct{}
}

// notes keeps what a program printed, for messages about faults.
type notes struct {
	mu   sync.Mutex
	text bytes.Buffer
}

// Write implements io.Writer.
func (n *notes) Write(data []byte) (int, error) {
	n.mu.Lock()
	defer n.mu.Unlock()
	return n.text.Write(data)
}

func (n *notes) String() string {
	n.mu.Lock()
	defer n.mu.Unlock()
	return n.text.String()
}

// begin starts a program, which ends with the process of the test at the latest where the system can see to it.
func begin(command *exec.Cmd) (*process, error) {
	p := &process{command: command, output: new(notes), ended: make(chan struct{})}
	command.Stderr = p.output
	command.WaitDelay = time.Second
	together(command)
	if err := command.Start(); err != nil {
		return nil, err
	}
	go func() {
		_ = command.Wait()
		close(p.ended)
	}()
	return p, nil
}

// stop ends the program and what it started.
func (p *process) stop() {
	kill(p.command)
	<-p.ended
}

// endsIn waits for the program to end by itself.
func (p *process) endsIn(limit time.Duration) bool {
	select {
	case <-p.ended:
		return true
	case <-time.After(limit):
		return false
	}
}
