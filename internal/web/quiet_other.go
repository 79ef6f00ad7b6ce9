//go:build !linux

package web

// lowers says that lower does something.
const lowers = false

func lower() {}
