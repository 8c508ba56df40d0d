//go:build unix

package child

import "syscall"

// ownGroup keeps a Ctrl-C at the terminal from reaching the child: the parent ends it.
func ownGroup() *syscall.SysProcAttr { return &syscall.SysProcAttr{Setpgid: true} }
