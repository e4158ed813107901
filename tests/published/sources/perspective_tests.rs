//! Homographies printed in the tests of public imaging libraries, and the example of a textbook's library.

use super::{Group, Seen, Source, Within, row};

const FLOATS: &str = "printed by a library from points held as 32-bit floats, to nine digits";

/// The source.
#[rustfmt::skip]
pub const SOURCE: Source = Source {
    name: "perspective_tests",
    document: "public tests: ijp-color 2021 PerspectiveTransformTest; mexopencv TestGetPerspectiveTransform; a session of opencv-python; imagingbook ProjectiveMapping2D",
    seen: Seen::Text,
    groups: &[
        Group { topic: "homography", function: "homography", rows: &[
            row("ijp-color, reference quad to deformed quad, x",
                "pm.x should be(317.07786 plusOrMinus 0.00001)",
                "from=0,0,6,0,6,4,0,4;to=207,95,461,132,436,312,198,255;point=3,2", "/mapped/0", 317.07786, Within::Digits(1e-5)),
            row("ijp-color, reference quad to deformed quad, y",
                "pm.y should be(199.30959 plusOrMinus 0.00001)",
                "from=0,0,6,0,6,4,0,4;to=207,95,461,132,436,312,198,255;point=3,2", "/mapped/1", 199.30959, Within::Digits(1e-5)),
            row("mexopencv, ref(1,2)",
                "ref = [0, 1, 0; -1, 0, 1; 0, 0, 1]",
                "from=0,1,1,1,1,0,0.25,0.25;to=1,1,1,0,0,0,0.25,0.75;point=0,0", "/matrix/1", 1.0, Within::Digits(1e-10)),
            row("mexopencv, ref(2,1)",
                "ref = [0, 1, 0; -1, 0, 1; 0, 0, 1]",
                "from=0,1,1,1,1,0,0.25,0.25;to=1,1,1,0,0,0,0.25,0.75;point=0,0", "/matrix/3", -1.0, Within::Digits(1e-10)),
            row("mexopencv, ref(3,1)",
                "ref = [0, 1, 0; -1, 0, 1; 0, 0, 1]",
                "from=0,1,1,1,1,0,0.25,0.25;to=1,1,1,0,0,0,0.25,0.75;point=0,0", "/matrix/6", 0.0, Within::Digits(1e-10)),
            row("session of opencv-python, M(1,1)",
                "[[ 2.86405074e+00 1.89358727e-01 -2.04720453e+02]",
                "from=33,582,151,579,145,702,25,703;to=0,0,300,0,300,300,0,300;point=0,0", "/matrix/0", 2.86405074, Within::Share(1e-7, FLOATS)),
            row("session of opencv-python, M(1,3)",
                "[[ 2.86405074e+00 1.89358727e-01 -2.04720453e+02]",
                "from=33,582,151,579,145,702,25,703;to=0,0,300,0,300,300,0,300;point=0,0", "/matrix/2", -204.720453, Within::Share(1e-7, FLOATS)),
            row("session of opencv-python, M(2,2)",
                "[ 7.10878995e-02 2.79612405e+00 -1.62969010e+03]",
                "from=33,582,151,579,145,702,25,703;to=0,0,300,0,300,300,0,300;point=0,0", "/matrix/4", 2.79612405, Within::Share(1e-7, FLOATS)),
            row("session of opencv-python, M(3,1)",
                "[ 1.60734029e-04 1.73337133e-04 1.00000000e+00]]",
                "from=33,582,151,579,145,702,25,703;to=0,0,300,0,300,300,0,300;point=0,0", "/matrix/6", 1.60734029e-4, Within::Share(1e-7, FLOATS)),
            row("session of opencv-python, M(3,2)",
                "[ 1.60734029e-04 1.73337133e-04 1.00000000e+00]]",
                "from=33,582,151,579,145,702,25,703;to=0,0,300,0,300,300,0,300;point=0,0", "/matrix/7", 1.73337133e-4, Within::Share(1e-7, FLOATS)),
            row("imagingbook, book example with five pairs, a(1,1)",
                "{{-0.732424, 1.208712, 0.244379},",
                "from=2,5,4,6,7,9,5,9,5.2,9.1;to=4,3,5,2,9,3,7,5,7,4.9;point=2,5", "/matrix/0", -0.732424,
                Within::NotRun("plain least squares of the equations; here the distances are made least; met by the solver's own test")),
        ] },
    ],
};
