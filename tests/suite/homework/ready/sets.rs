//! What the ready assignments ask, in both languages.

use super::writer::Writer;
use beatwalk::homework::{Ask, Assignment};
use beatwalk::lesson::Quantity;
use beatwalk::signal::Landmark;
use beatwalk::synth::Demo;
use beatwalk::words::Language;

pub(super) fn one_beat_at_rest(language: Language) -> Assignment {
    let mut set = Writer::new(
        language,
        ["One heartbeat at rest", "Un latido en reposo"],
        [
            "Q-03 sat still while this was recorded. Choose one clear beat, place its points, and measure it.\nThe recording is invented.",
            "Q-03 estaba sentado y quieto mientras se registraba esto. Elige un latido claro, coloca sus puntos y mídelo.\nEl registro es inventado.",
        ],
    );
    set.give("a", Demo::Resting, ["Q-03 at rest", "Q-03 en reposo"]);
    set.ask(
        11.0,
        [
            "Place all points of one beat. Where the beat does not show a point, say so.",
            "Coloca todos los puntos de un latido. Si el latido no muestra un punto, indícalo.",
        ],
        Ask::Points { material: "a".to_owned(), landmarks: Landmark::ALL.to_vec() },
    );
    set.measure(
        "a",
        ["How long is the PR interval, in ms?", "¿Cuánto dura el intervalo PR, en ms?"],
        Quantity::Pr,
        13.0,
    );
    set.measure(
        "a",
        ["How long is the QRS complex, in ms?", "¿Cuánto dura el complejo QRS, en ms?"],
        Quantity::Qrs,
        14.0,
    );
    set.measure(
        "a",
        ["How long is the QT interval, in ms?", "¿Cuánto dura el intervalo QT, en ms?"],
        Quantity::Qt,
        32.0,
    );
    set.measure(
        "a",
        [
            "How fast does the heart beat over the whole recording, in beats a minute?",
            "¿A qué ritmo late el corazón en todo el registro, en latidos por minuto?",
        ],
        Quantity::Rate,
        3.0,
    );
    set.choose(
        ["What does the T wave show?", "¿Qué muestra la onda T?"],
        &[
            ["the ventricles filling with blood", "los ventrículos que se llenan de sangre"],
            [
                "the ventricles returning to rest electrically",
                "los ventrículos que vuelven eléctricamente al reposo",
            ],
            ["the atria contracting", "las aurículas que se contraen"],
            ["the valves to the arteries opening", "las válvulas hacia las arterias que se abren"],
        ],
        1,
    );
    set.choose(
        [
            "Most of the PR interval after the P wave is a level line. Why?",
            "Después de la onda P, la mayor parte del intervalo PR es una línea plana. ¿Por qué?",
        ],
        &[
            ["nothing in the heart is active then", "en ese momento nada del corazón está activo"],
            ["the ventricles are filled and wait", "los ventrículos están llenos y esperan"],
            [
                "the signal passes through the AV node and the bundle, too little tissue to show in this lead",
                "la señal pasa por el nodo AV y el haz, demasiado poco tejido para verse en esta derivación",
            ],
        ],
        2,
    );
    set.write(
        3.0,
        [
            "\"The P wave is the atria contracting.\" What is wrong with this sentence, and what would you write instead?",
            "«La onda P es la contracción de las aurículas». ¿Qué tiene de incorrecto esta frase y qué escribirías en su lugar?",
        ],
        [
            "The trace shows electrical events only (1). P is depolarisation spreading over the atria (1). They contract because of it and after it has begun, about 25 ms later (1). OpenStax, Anatomy and Physiology 2e.",
            "El trazado solo muestra sucesos eléctricos (1). P es la despolarización que se extiende por las aurículas (1). Se contraen por ella y después de que empieza, unos 25 ms más tarde (1). OpenStax, Anatomy and Physiology 2e.",
        ],
    );
    set.assignment
}

pub(super) fn rest_and_stairs(language: Language) -> Assignment {
    let mut set = Writer::new(
        language,
        ["At rest and after the stairs", "En reposo y después de las escaleras"],
        [
            "Two recordings of Q-03: sitting still, and right after climbing stairs. Measure both and compare.\nThe recordings are invented.",
            "Dos registros de Q-03: sentado y quieto, y justo después de subir escaleras. Mide los dos y compáralos.\nLos registros son inventados.",
        ],
    );
    set.give("a", Demo::Resting, ["Q-03 at rest", "Q-03 en reposo"]);
    set.give(
        "b",
        Demo::AfterStairs,
        ["Q-03 right after the stairs", "Q-03 justo después de las escaleras"],
    );
    set.measure(
        "a",
        [
            "The heart rate at rest, in beats a minute?",
            "¿La frecuencia cardíaca en reposo, en latidos por minuto?",
        ],
        Quantity::Rate,
        3.0,
    );
    set.measure(
        "b",
        [
            "The heart rate after the stairs, in beats a minute?",
            "¿La frecuencia cardíaca después de las escaleras, en latidos por minuto?",
        ],
        Quantity::Rate,
        5.0,
    );
    set.measure(
        "a",
        ["The QT interval at rest, in ms?", "¿El intervalo QT en reposo, en ms?"],
        Quantity::Qt,
        32.0,
    );
    set.measure(
        "b",
        [
            "The QT interval after the stairs, in ms?",
            "¿El intervalo QT después de las escaleras, en ms?",
        ],
        Quantity::Qt,
        32.0,
    );
    set.choose(
        [
            "From R to R there is less time after the stairs. Which part of the cycle gives most of it?",
            "Después de las escaleras hay menos tiempo de R a R. ¿Qué parte del ciclo cede más?",
        ],
        &[
            ["the QRS complex", "el complejo QRS"],
            ["the PR interval", "el intervalo PR"],
            ["the QT interval", "el intervalo QT"],
            ["TP, from the end of T to the next P", "TP, desde el final de T hasta la siguiente P"],
        ],
        3,
    );
    set.choose(
        [
            "What do the ventricles do mechanically during TP?",
            "¿Qué hacen mecánicamente los ventrículos durante TP?",
        ],
        &[
            ["they eject blood", "expulsan sangre"],
            ["they are relaxed and fill", "están relajados y se llenan"],
            ["they contract with all valves shut", "se contraen con todas las válvulas cerradas"],
        ],
        1,
    );
    set.write(
        4.0,
        [
            "Why does TP shorten most when the heart beats faster, and what does that mean for filling? Use your numbers.",
            "¿Por qué TP es lo que más se acorta cuando el corazón late más rápido y qué significa eso para el llenado? Usa tus números.",
        ],
        [
            "All parts shorten, but TP, the pause, gives most of the time (1), shown with the student's own RR and QT (1). During TP the ventricles are relaxed and fill (1); the time to fill shrinks faster than the cycle (1). The trace shows neither filling nor how much is pumped. OpenStax, Anatomy and Physiology 2e.",
            "Todas las partes se acortan, pero TP, la pausa, cede la mayor parte del tiempo (1), mostrado con el RR y el QT propios (1). Durante TP los ventrículos están relajados y se llenan (1); el tiempo de llenado se reduce más deprisa que el ciclo (1). El trazado no muestra ni el llenado ni cuánto se bombea. OpenStax, Anatomy and Physiology 2e.",
        ],
    );
    set.assignment
}

pub(super) fn what_is_wrong(language: Language) -> Assignment {
    let mut set = Writer::new(
        language,
        ["What is wrong with this trace?", "¿Qué falla en este trazado?"],
        [
            "Two recordings went wrong. Find out what happened, and what you would do before recording again.\nThe recordings are invented.",
            "Dos registros salieron mal. Averigua qué pasó y qué harías antes de registrar otra vez.\nLos registros son inventados.",
        ],
    );
    set.give("a", Demo::Noisy, ["Q-11", "Q-11"]);
    set.give("b", Demo::SwappedArms, ["Q-07", "Q-07"]);
    set.choose(
        ["Zoom in on Q-11. An even ripple lies over the whole trace, 50 times a second. What is it?", "Acerca Q-11. Una ondulación regular cubre todo el trazado, 50 veces por segundo. ¿Qué es?"],
        &[
            ["the heart's own rhythm", "el ritmo propio del corazón"],
            ["hum from the mains", "zumbido de la red eléctrica"],
            ["breathing", "la respiración"],
        ],
        1,
    );
    set.choose(
        [
            "The level line of Q-11 moves slowly up and down. What is a likely cause?",
            "La línea de base de Q-11 sube y baja despacio. ¿Cuál es una causa probable?",
        ],
        &[
            [
                "a wave of the heart that nobody has named",
                "una onda del corazón que nadie ha nombrado",
            ],
            ["the ventricles filling", "el llenado de los ventrículos"],
            [
                "breathing, or an electrode that moves on the skin",
                "la respiración, o un electrodo que se mueve sobre la piel",
            ],
        ],
        2,
    );
    set.choose(
        [
            "In Q-07 P, QRS and T all point down. What is the most likely cause?",
            "En Q-07, P, QRS y T apuntan hacia abajo. ¿Cuál es la causa más probable?",
        ],
        &[
            [
                "the cables of the two arms are swapped",
                "los cables de los dos brazos están intercambiados",
            ],
            ["the heart beats backwards", "el corazón late al revés"],
            ["the sensor has no battery", "el sensor no tiene pila"],
        ],
        0,
    );
    set.choose(
        [
            "You quieten Q-11 with a wide moving average. What does that cost?",
            "Quitas ruido a Q-11 con una media móvil ancha. ¿Qué cuesta eso?",
        ],
        &[
            ["nothing, the heart stays as it was", "nada, el corazón queda como estaba"],
            ["every beat comes later", "todos los latidos llegan más tarde"],
            [
                "narrow waves such as R become lower",
                "las ondas estrechas, como R, quedan más bajas",
            ],
        ],
        2,
    );
    set.write(
        4.0,
        [
            "What would you do before you record Q-11 and Q-07 again? Name one step for each thing that is wrong, and why it helps.",
            "¿Qué harías antes de volver a registrar a Q-11 y a Q-07? Di un paso para cada cosa que falla y por qué ayuda.",
        ],
        [
            "Q-11: away from mains cables and chargers, good contact on clean skin (hum, 1); tape the cables down, breathe quietly (wander, 1); rest the arms, loose and warm (tremor, 1). Q-07: put the electrodes of left and right where the sensor's manual says (1). The rules of the school and the sensor's manual come first. Surveys of ECG noise; Rosen 2014.",
            "Q-11: lejos de cables de red y cargadores, buen contacto con la piel limpia (zumbido, 1); fijar los cables, respirar con calma (deriva, 1); brazos apoyados, sueltos y sin frío (temblor, 1). Q-07: poner los electrodos izquierdo y derecho donde dice el manual del sensor (1). Antes están las normas del centro y el manual del sensor. Estudios sobre el ruido en el ECG; Rosen 2014.",
        ],
    );
    set.assignment
}
