package folders

import (
	"io/fs"
	"syscall"
)

// hidden reports whether the system keeps a file out of sight.
func hidden(info fs.FileInfo) bool {
	const away = syscall.FILE_ATTRIBUTE_HIDDEN | syscall.FILE_ATTRIBUTE_SYSTEM
	d, ok := info.Sys().(*syscall.Win32FileAttributeData)
	return ok && d.FileAttributes&away != 0
}

// drives are the letters that have a drive now.
func drives() []Place {
	proc := syscall.NewLazyDLL("kernel32.dll").NewProc("GetLogicalDrives")
	mask, _, _ := proc.Call()
	var out []Place
	for i := range 26 {
		if mask>>i&1 == 1 {
			letter := string(rune('A'+i)) + ":"
			out = append(out, Place{Name: letter, Path: letter + `\`, Sort: Drive})
		}
	}
	return out
}
