//! Examinations of students: the instructor's and the student's side, and the class.

use slingseal_app::{
    ClassRequest, ClassTable, ClassView, ExamBegin, ExamKeyView, ExamPlan, ExamPlanView, ExamResultLine,
    ExamResultView, ExamStandard, PlantedView, RunLine, RunView, WalkRequest,
};

use crate::{Answer, Handheld, MovingOut};

#[uniffi::export]
impl Handheld {
    /// Works out what to plant, and keeps nothing.
    ///
    /// # Errors
    /// A text that is no tag; a pick that the procedure does not know; more than there is room for.
    pub fn exam_plan(&self, plan: ExamPlan) -> Answer<ExamPlanView> {
        Ok(self.app.exam_plan(&plan)?)
    }

    /// All that can be planted on the load of a tag, in the order of the load.
    ///
    /// # Errors
    /// A text that is no tag; its procedure is not here.
    pub fn exam_plantable(&self, tag: &str) -> Answer<Vec<PlantedView>> {
        Ok(self.app.exam_plantable(tag)?)
    }

    /// Locks what is planted, signed as an instructor. Slow: the PIN is stretched.
    ///
    /// # Errors
    /// As `exam_plan`; a standard that cannot be; no instructor's credential; a wrong PIN.
    pub fn exam_lock(&self, plan: ExamPlan, standard: ExamStandard, pin: &str) -> Answer<ExamKeyView> {
        Ok(self.app.exam_lock(&plan, &standard, pin)?)
    }

    /// Every key that is known here, without the lists.
    ///
    /// # Errors
    /// Storage.
    pub fn exam_keys(&self) -> Answer<Vec<ExamKeyView>> {
        Ok(self.app.exam_keys()?)
    }

    /// A key without its list, by its code or its first digits.
    ///
    /// # Errors
    /// No such key; a code that is no instructor's.
    pub fn exam_key(&self, key: &str) -> Answer<ExamKeyView> {
        Ok(self.app.exam_key(key)?)
    }

    /// A key with its list. Slow: the PIN is stretched.
    ///
    /// # Errors
    /// No such key; its list is elsewhere, or was changed; a wrong PIN.
    pub fn exam_reveal(&self, key: &str, pin: &str) -> Answer<ExamKeyView> {
        Ok(self.app.exam_reveal(key, pin)?)
    }

    /// Begins a run, or goes on with the one in hand of that student. The clock starts here.
    ///
    /// # Errors
    /// A key, tag or student that cannot be; a clock before the lock.
    pub fn exam_begin(&self, begin: ExamBegin) -> Answer<RunView> {
        Ok(self.app.exam_begin(&begin)?)
    }

    /// A run as it stands; the shell asks once a second.
    ///
    /// # Errors
    /// No such run.
    pub fn exam_run(&self, run: &str) -> Answer<RunView> {
        Ok(self.app.exam_run(run)?)
    }

    /// Does what a student did; it is on disk before this returns.
    ///
    /// # Errors
    /// No such run; a value that cannot be read; storage.
    pub fn exam_do(&self, run: &str, request: WalkRequest) -> Answer<RunView> {
        Ok(self.app.exam_do(run, &request)?)
    }

    /// Ends a run: the clock stops.
    ///
    /// # Errors
    /// No such run; storage.
    pub fn exam_end(&self, run: &str) -> Answer<RunView> {
        Ok(self.app.exam_end(run)?)
    }

    /// Every run that is known here.
    ///
    /// # Errors
    /// Storage.
    pub fn exam_runs(&self) -> Answer<Vec<RunLine>> {
        Ok(self.app.exam_runs()?)
    }

    /// The sheet of an ended run as a bundle.
    ///
    /// # Errors
    /// No such run, or one that is not ended.
    pub fn exam_sheet(&self, run: &str) -> Answer<Vec<u8>> {
        Ok(self.app.exam_sheet(run)?)
    }

    /// Prepares the sheet as a moving code; its frames follow by `moving_frame`.
    ///
    /// # Errors
    /// As `exam_sheet`.
    pub fn exam_sheet_moving(&self, run: &str) -> Answer<MovingOut> {
        let code = self.app.exam_sheet_code(run)?;
        let out = MovingOut::of(&code);
        self.moving().shown = Some(code);
        Ok(out)
    }

    /// Scores an ended run and signs the result. Slow: the PIN is stretched.
    ///
    /// # Errors
    /// What is planted is known elsewhere, or was changed; a wrong PIN.
    pub fn exam_score(&self, run: &str, pin: &str) -> Answer<ExamResultView> {
        Ok(self.app.exam_score(run, pin)?)
    }

    /// Every result that is known here.
    ///
    /// # Errors
    /// Storage.
    pub fn exam_results(&self) -> Answer<Vec<ExamResultLine>> {
        Ok(self.app.exam_results()?)
    }

    /// A result, by the first digits of its digest.
    ///
    /// # Errors
    /// No such result, or one that does not hold.
    pub fn exam_result(&self, result: &str) -> Answer<ExamResultView> {
        Ok(self.app.exam_result(result)?)
    }

    /// The class.
    ///
    /// # Errors
    /// A time that cannot be read; storage.
    pub fn exam_class(&self, request: ClassRequest) -> Answer<ClassView> {
        Ok(self.app.exam_class(&request)?)
    }

    /// The class as tables for a spreadsheet.
    ///
    /// # Errors
    /// As `exam_class`.
    pub fn exam_class_csv(&self, request: ClassRequest) -> Answer<Vec<ClassTable>> {
        Ok(self.app.exam_class_csv(&request)?)
    }
}
