package browsertest

import (
	"os/exec"
	"syscall"
)

// together puts a program into a process group of its own and ends it with the test.
func together(command *exec.Cmd) {
	command.SysProcAttr = &syscall.SysProcAttr{Setpgid: true, Pdeathsig: syscall.SIGKILL}
}

// kill ends a program and its process group.
func kill(command *exec.Cmd) { _ = syscall.Kill(-command.Process.Pid, syscall.SIGKILL) }
