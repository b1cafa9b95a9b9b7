package term

// CanSuspend reports whether Ctrl+Z has a shell to return to: never on Windows.
func CanSuspend() bool { return false }
