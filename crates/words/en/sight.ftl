# How much of a bay is seen by who works in it.

sight-how = How to work
sight-open = Open
sight-hands = By hand
sight-exam = Exam
sight-hint = Open: everything is seen. By hand: what instruments, eyes, ears, nose and hands tell. Exam: by hand, no going back, no hints.
sight-hands-idea = What instruments, eyes, ears, nose and hands tell. What goes on inside is hidden.
sight-exam-idea = As by hand: no going back, no undo, no hints.
sight-open-inside = Open the inside
sight-open-inside-idea = This ends the work by hand, for good. The saved bay says at what time the inside was opened.
sight-open-inside-now = Open it now
sight-hand-in = Hand in the exam
sight-hand-in-idea = This ends the exam, for good. The saved bay says at what time it was handed in. After that the inside can be opened.
sight-hand-in-now = Hand it in now
sight-handed-in = Handed in at { $clock }. The inside can be opened now.
sight-opened-hands = Worked by hand until { $clock }; then the inside was opened.
sight-opened-exam = An exam until { $clock }; then the inside was opened.
