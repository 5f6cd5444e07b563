# Cuánto del taller ve quien trabaja en él.

sight-how = Cómo se trabaja
sight-open = A la vista
sight-hands = A mano
sight-exam = Examen
sight-hint = A la vista: se ve todo. A mano: lo que dicen los instrumentos, los ojos, los oídos, el olfato y las manos. Examen: a mano, sin volver atrás ni pistas.
sight-hands-idea = Lo que dicen los instrumentos, los ojos, los oídos, el olfato y las manos. Lo que pasa adentro no se ve.
sight-exam-idea = Igual que a mano: sin volver atrás, sin deshacer y sin pistas.
sight-open-inside = Mostrar el interior
sight-open-inside-idea = Con esto se acaba el trabajo a mano, y ya no se puede volver a él. El trabajo guardado dice a qué hora se mostró el interior.
sight-open-inside-now = Mostrarlo ahora
sight-hand-in = Entregar el examen
sight-hand-in-idea = Con esto se acaba el examen, y ya no se puede volver a él. El trabajo guardado dice a qué hora se entregó. Después se puede mostrar el interior.
sight-hand-in-now = Entregarlo ahora
sight-handed-in = Entregado a los { $clock }. Ya se puede mostrar el interior.
sight-opened-hands = Se trabajó a mano hasta los { $clock }; después se mostró el interior.
sight-opened-exam = Fue un examen hasta los { $clock }; después se mostró el interior.
