//go:build unix

package record

import (
	"os"
	"syscall"
	"time"
)

// careful opens without waiting for a byte, and no link.
const careful = syscall.O_NONBLOCK | syscall.O_NOFOLLOW

// patience is how long another run may hold the record.
const patience = 2 * time.Second

// hold keeps other runs of this program from writing until it is released, or ends however it ends.
func hold(f *os.File) (release func(), err error) {
	for end := time.Now().Add(patience); ; time.Sleep(10 * time.Millisecond) {
		err := syscall.Flock(int(f.Fd()), syscall.LOCK_EX|syscall.LOCK_NB)
		if err == nil {
			return func() { _ = syscall.Flock(int(f.Fd()), syscall.LOCK_UN) }, nil
		}
		if err != syscall.EWOULDBLOCK && err != syscall.EINTR {
			return func() {}, nil // a file system without locks: what was read is compared all the same
		}
		if time.Now().After(end) {
			return nil, ErrBusy
		}
	}
}
