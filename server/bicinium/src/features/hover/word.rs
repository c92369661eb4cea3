//! What is said about the words of the notation.

use super::Section;

/// What a word of the notation means; `None` if it is not one.
pub(in crate::features) fn say(word: &str) -> Option<Vec<Section>> {
    let meaning = meaning(word)?;
    Some(vec![Section::Heading(word.to_owned()), Section::Text(meaning.to_owned())])
}

fn meaning(word: &str) -> Option<&'static str> {
    let meaning = match word {
        "exercise" => "Opens an exercise. A title may follow in quotation marks.",
        "cantus" => {
            "At the head of a block: defines a cantus, one note a bar, under a name. In a voice \
             row: the voice is given and not to be changed."
        }
        "counter" => "The voice that is to be written against the given one.",
        "line" => "The notes of a cantus definition, one note a bar.",
        "key" => {
            "A tonic and a mode, as in `key G major`. A pitch means what it says; the key never alters it."
        }
        "meter" => "The meter, as in `meter 3/2`. It is 2/2 where nothing is said.",
        "species" => {
            "1 note against note, 2 two notes, 3 four notes, 4 ties, 5 mixed. Left out, the \
             exercise is free writing."
        }
        "rulebook" => "The school whose rules hold: `tonal`, `modal`, or one of your own.",
        "by" => "Who wrote it.",
        "points" => "How many points an exercise is worth, as in `points 10`.",
        "deadline" => "Until when it is to be handed in, in words and quotation marks.",
        "use" => "Takes the cantus definitions of another sheet.",
        "harmony" => {
            "Your own reading in Roman numerals, bar by bar. What is blank is inferred, what is \
             written binds the reading."
        }
        "allow" => {
            "A licence: accepts a finding on purpose, for the whole exercise, a bar, a beat or a \
             stretch, and gives the reason."
        }
        "at" => "The bar, or bar and beat, that a licence holds for, as in `at 3` or `at 3.2`.",
        "to" => "The last bar that a licence holds for.",
        "because" => "Why the licence is taken.",
        "rest" => "Silence for one share of the bar.",
        "soprano" | "mezzo" | "alto" | "tenor" | "baritone" | "bass" => {
            "The register of a voice. The first voice row of an exercise is the upper voice."
        }
        _ => return mode(word),
    };
    Some(meaning)
}

fn mode(word: &str) -> Option<&'static str> {
    let meaning = match word {
        "major" | "ionian" => "The mode with a major third and the leading note in its scale.",
        "minor" | "aeolian" => {
            "The mode with a minor third. The sixth and seventh degrees are raised on the way up \
             to the tonic."
        }
        "dorian" => {
            "The mode on D: a minor third and a major sixth. Its leading note is raised at the close."
        }
        "phrygian" => {
            "The mode on E: it closes by a semitone from above and a whole tone from below, with \
             no raised leading note."
        }
        "lydian" => "The mode on F: a major third and an augmented fourth, often lowered.",
        "mixolydian" => "The mode on G: a major third and a minor seventh, raised at the close.",
        _ => return None,
    };
    Some(meaning)
}
