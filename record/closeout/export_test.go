package closeout

// AtQuestions is for the test that holds it to all hints.
var AtQuestions = atQuestions
