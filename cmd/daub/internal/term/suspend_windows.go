package term

// CanSuspend reports whether Ctrl+Z has a shell to go to; here it has none.
func CanSuspend() bool { return false }
