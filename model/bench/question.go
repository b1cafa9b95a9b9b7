package bench

// Keys of questions.
const (
	AskWeighing = "weighing" // a weighing that is far from what a level spoon can weigh, or from the others
	AskGained   = "gained"   // a pot that holds no less than before, though powder was taken from it
	AskLoss     = "loss"     // a pot that lost far more, or far less, than the spoons should hold
)

// Question is the error of a change that looks like a slip, which only its maker can know.
// Nothing has changed then.
type Question struct {
	Key    string // AskWeighing, AskGained or AskLoss
	Text   string // one question: "23.5 g a level 1 tsp? The others say 2.3 g."
	insist func() error
}

// Error gives the question.
func (q *Question) Error() string { return q.Text }

// Insist makes the change all the same.
func (q *Question) Insist() error { return q.insist() }
